import { applyEdit, type Edit } from '../job/edits/index.ts';
import { freeName } from '../job/names.ts';
import { DEFAULT_SURFACE } from '../job/types.ts';
import { tapeFigures } from '../takeoff/fits/tape-figure.ts';
import { tr } from '../words/tr.ts';
import { change, currentJob, newId, openSheet, sayProblem, select, store, takeTool } from './store.ts';

/** Makes edits about tapes, and with them puts the corners where all tapes together say; one step of history. */
export function changeTapes(edits: readonly Edit[]): void {
  let job = currentJob();
  for (const edit of edits) {
    const next = applyEdit(job, edit);
    if (!next.ok) {
      sayProblem(next.problem);
      return;
    }
    job = next.value;
  }
  const places = Object.assign({}, ...tapeFigures(job).map((f) => f.places));
  const place: Edit = { type: 'place-corners', args: { places } };
  // Where the tapes fold an outline over itself the corners stay, and the remark says that they do.
  const fits = applyEdit(job, place).ok;
  change(fits && Object.keys(places).length > 0 ? [...edits, place] : edits);
}

/** A slab with so many corners on a grid, to be given its shape by tape. */
export function slabByTape(corners: number): void {
  const job = currentJob();
  const grid = Object.values(job.sheets).find((s) => s.picture === null && s.fit?.kind === 'metric');
  const sheetId = grid?.id ?? newId('sheet');
  const edits: Edit[] = grid
    ? []
    : [{ type: 'add-sheet', args: { id: sheetId, name: tr`Grid`, picture: null, fit: { kind: 'metric' } } }];
  const right = Math.max(
    0,
    ...Object.values(job.corners)
      .filter((c) => c.sheetId === sheetId)
      .map((c) => c.x + 2),
  );
  const id = newId('slab');
  const ring = Array.from({ length: corners }, (_, i) => {
    const angle = -Math.PI / 2 - Math.PI / corners + (2 * Math.PI * i) / corners;
    return { id: newId('c'), x: right + 3 + 3 * Math.cos(angle), y: 3 + 3 * Math.sin(angle), via: null };
  });
  const name = freeName(tr`Slab`, Object.values(job.slabs));
  edits.push({ type: 'add-slab', args: { id, name, sheetId, corners: ring, surface: DEFAULT_SURFACE } });
  if (!change(edits)) return;
  openSheet(sheetId);
  takeTool('select');
  store.setState({ station: 'Measure' });
  select(null);
}
