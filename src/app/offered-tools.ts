import { TOOLS } from '../board/tools/index.ts';
import { type AppState, shownJob } from './store.ts';

/** The tools that make sense on the sheet in view: those for photos are not offered where there is none. */
export function offeredTools(state: AppState) {
  const { sheetId, view } = state;
  if (sheetId === null) return [];
  const fit = shownJob(state).sheets[sheetId]?.fit?.kind;
  return TOOLS.filter(({ id }) => {
    if (id === 'straight') return fit === 'marks';
    if (id === 'marks') return !view.yUp && fit !== 'drawing' && fit !== 'page' && fit !== 'straightened';
    return !(id === 'scale' && (view.yUp || fit === 'straightened'));
  });
}
