import type { Imported, ImportOptions } from '../imports/index.ts';
import { type Problem, sentence } from '../problem.ts';
import { keepImage } from '../storage/job-store.ts';
import { tr } from '../words/tr.ts';
import { readBeside } from './reading.ts';
import {
  change,
  currentJob,
  keepPicture,
  type Opening,
  openSheet,
  say,
  sayProblem,
  store,
  takeTool,
} from './store.ts';

/** Reads a file to measure on; asks first where it has pages, layers or a lock. */
export async function openToMeasure(bytes: Uint8Array, name: string): Promise<void> {
  await attempt({ bytes, name, options: {}, pages: 1, layers: [], locked: false, wrong: '' }, false);
}

/** Opens the file that waits, as it was chosen. */
export async function openAsChosen(options: ImportOptions): Promise<void> {
  const { opening } = store.getState();
  if (opening) await attempt({ ...opening, options }, true);
}

export const leaveOpening = (): void => store.setState({ opening: null });

async function attempt(opening: Opening, chosen: boolean): Promise<void> {
  const read = await readBeside(opening.bytes, opening.name, opening.options);
  if (!read) {
    say(tr`${opening.name} was not read any further.`);
    return;
  }
  if (!read.ok) {
    refuse(opening, read.problem);
    return;
  }
  const { pages, layers } = read.value;
  const asks = pages > 1 || layers.length > 1 || (opening.locked && !chosen);
  if (asks && !chosen) {
    store.setState({ opening: { ...opening, pages, layers }, station: 'Measure', message: null });
    return;
  }
  store.setState({ opening: null });
  await add(read.value);
}

function refuse(opening: Opening, problem: Problem): void {
  store.setState({ message: null });
  if (problem.code === 'document/password') {
    const wrong = problem.wrong ? sentence(problem) : '';
    store.setState({ opening: { ...opening, locked: true, wrong }, station: 'Measure' });
  } else if (store.getState().opening) store.setState({ opening: { ...opening, wrong: sentence(problem) } });
  else sayProblem(problem);
}

/** Larger pictures are decoded once only, when they are shown: each time takes four bytes a pixel. */
const MOST_TRIED_PIXELS = 16_000_000;
const DECODED_TYPES = new Set(['image/png', 'image/jpeg', 'image/webp', 'image/avif']);

/** Puts an imported sheet into the job, its picture kept first. */
async function add({ sheet, edits, image, notes }: Imported): Promise<void> {
  let blob: Blob | null = null;
  if (image) {
    blob = new Blob([image.bytes as Uint8Array<ArrayBuffer>], { type: image.type });
    const pixels = (sheet.picture?.widthPx ?? 0) * (sheet.picture?.heightPx ?? 0);
    const small = pixels <= MOST_TRIED_PIXELS && DECODED_TYPES.has(image.type);
    if (small && !(await decodes(blob))) {
      sayProblem({ code: 'image/broken', file: sheet.name });
      return;
    }
    keepPicture(image.id, blob);
    const kept = await keepImage(image.id, blob);
    if (!kept.ok) sayProblem(kept.problem);
  }
  const waiting = sheet.picture && image ? sheetWithoutPicture(sheet.picture) : null;
  if (waiting && sheet.picture) {
    change([{ type: 'set-picture', args: { sheetId: waiting, picture: sheet.picture } }]);
    openSheet(waiting);
    return;
  }
  if (!change(edits)) return;
  openSheet(sheet.id);
  store.setState({ station: 'Measure' });
  if (sheet.picture && !sheet.fit) takeTool('scale');
  say(notes.join(' '));
}

/** A sheet whose picture is missing and was of the same size. */
function sheetWithoutPicture(size: { readonly widthPx: number; readonly heightPx: number }): string | null {
  const { images } = store.getState();
  const found = Object.values(currentJob().sheets).find(
    ({ picture }) =>
      picture &&
      !images.has(picture.imageId) &&
      Math.abs(picture.widthPx - size.widthPx) < 0.01 &&
      Math.abs(picture.heightPx - size.heightPx) < 0.01,
  );
  return found?.id ?? null;
}

async function decodes(image: Blob): Promise<boolean> {
  try {
    (await createImageBitmap(image, { resizeWidth: 8, resizeHeight: 8 })).close();
    return true;
  } catch {
    return false;
  }
}
