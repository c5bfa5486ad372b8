import { gathers } from '../board/tools/select.ts';
import { selectionOf, toggled } from '../board/tools/several.ts';
import type { Item } from '../board/tools/tool.ts';
import type { Id, Job } from '../job/types.ts';
import { openSheet, select, store } from './store.ts';

/** Selects a thing by its id and brings its sheet to the front. */
export function showPlace(id: Id): void {
  const { results, sheetId } = store.getState();
  const { job, takeoff } = results;
  const zone = takeoff.zones.find((z) => z.id === id || z.slabId === id);
  const home = zone?.sheetId ?? job.slabs[id]?.sheetId ?? job.voids[id]?.sheetId ?? job.sheets[id]?.id;
  if (home && home !== sheetId) openSheet(home);
  const item = zone ? ({ kind: 'zone', id: zone.id } as const) : itemCalled(job, id);
  if (!item) return;
  const { selection, toolId, toolState, shift } = store.getState();
  select(gathers(toolId, toolState, shift) ? toggled(selection, item) : item);
}

function itemCalled(job: Job, id: Id): Item | null {
  if (Object.hasOwn(job.slabs, id)) return { kind: 'zone', id };
  if (Object.hasOwn(job.voids, id)) return { kind: 'void', id };
  return Object.hasOwn(job.cuts, id) ? { kind: 'cut', id } : null;
}

/** Selects all that is drawn on the sheet in view. */
export function selectAll(): void {
  const { results, sheetId } = store.getState();
  const { job, takeoff } = results;
  const slabs = Object.values(job.slabs).filter((s) => s.sheetId === sheetId);
  const zones = slabs.flatMap((s) => {
    const ids = takeoff.zones.filter((z) => z.slabId === s.id).map((z) => z.id);
    return ids.length > 0 ? ids : [s.id];
  });
  const voids = Object.values(job.voids).filter((v) => v.sheetId === sheetId);
  select(
    selectionOf([
      ...zones.map((id) => ({ kind: 'zone', id }) as const),
      ...voids.map(({ id }) => ({ kind: 'void', id }) as const),
    ]),
  );
}
