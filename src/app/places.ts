import { gathers } from '../board/tools/select.ts';
import { itemsWithin, selectionOf, toggled } from '../board/tools/several.ts';
import type { Item } from '../board/tools/tool.ts';
import type { Id, Job } from '../job/types.ts';
import type { Station } from './stations.ts';
import { openSheet, select, store, toolContext } from './store.ts';

/** Opens a station; a panel that is down comes up. */
export function showStation(station: Station): void {
  const { dock } = store.getState();
  store.setState({ station, dock: dock === 'low' ? 'half' : dock });
}

/** The same for who goes by keys: the next Tab leads into it. */
export function enterStation(station: Station): void {
  showStation(station);
  requestAnimationFrame(() => {
    const panel = document.querySelector<HTMLElement>('.station');
    if (!panel) return;
    // Only for now: a click into it is to leave the arrows with what is selected on the board.
    panel.tabIndex = -1;
    panel.addEventListener('blur', () => panel.removeAttribute('tabindex'), { once: true });
    panel.focus();
  });
}

/** The questions about the concrete of a slab, opened. */
export function showQuestions(slabId: Id): void {
  showStation('Site');
  requestAnimationFrame(() => {
    const questions = document.getElementById(`questions-${slabId}`) as HTMLDetailsElement | null;
    if (!questions) return;
    questions.open = true;
    questions.scrollIntoView({ block: 'start' });
    questions.querySelector('summary')?.focus({ preventScroll: true });
  });
}

/** Back on the board: arrows draw and move there. */
export function enterBoard(): void {
  // After a list of commands that closes has given the focus back.
  requestAnimationFrame(() => document.querySelector<HTMLElement>('.board')?.focus());
}

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
  const context = toolContext();
  if (!context) return;
  const far = { x: Infinity, y: Infinity };
  select(selectionOf(itemsWithin({ x: -far.x, y: -far.y }, far, context)));
}
