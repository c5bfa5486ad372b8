import { store } from './store.ts';

/** How far the panels lag behind what is dragged. */
const SETTLES_MS = 150;

/** Lets the numbers of the panels follow those of the board: at once, and while something is dragged now and then. */
export function settle(): void {
  let waiting: ReturnType<typeof setTimeout> | null = null;
  store.subscribe(({ results, preview, settled }, before) => {
    if (results === before.results && preview === before.preview) return;
    if (!preview) {
      if (waiting) clearTimeout(waiting);
      waiting = null;
      if (settled !== results) store.setState({ settled: results });
    } else
      waiting ??= setTimeout(() => {
        waiting = null;
        store.setState({ settled: store.getState().results });
      }, SETTLES_MS);
  });
}
