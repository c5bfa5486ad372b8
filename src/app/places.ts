import type { Id } from '../job/types.ts';
import { openSheet, select, store } from './store.ts';

/** Selects a thing by its id and brings its sheet to the front. */
export function showPlace(id: Id): void {
  const { results, sheetId } = store.getState();
  const { job, takeoff } = results;
  const zone = takeoff.zones.find((z) => z.id === id || z.slabId === id);
  const home = zone?.sheetId ?? job.slabs[id]?.sheetId ?? job.voids[id]?.sheetId ?? job.sheets[id]?.id;
  if (home && home !== sheetId) openSheet(home);
  if (zone) select({ kind: 'zone', id: zone.id });
  else if (Object.hasOwn(job.slabs, id)) select({ kind: 'zone', id });
  else if (Object.hasOwn(job.voids, id)) select({ kind: 'void', id });
  else if (Object.hasOwn(job.cuts, id)) select({ kind: 'cut', id });
}
