import {
  boxOf,
  type Frame,
  frameScale,
  fromFrame,
  type Matrix3,
  multiplyMatrix,
  type Point,
  toFrame,
} from '../../geometry/index.ts';
import { openPage } from '../board/view/document-page.ts';
import { lineImage } from '../board/view/sheet-picture.tsx';
import type { Fit, Job, Sheet, SheetPicture } from '../job/types.ts';
import { MOST_PIXELS, straightPicture, type Warp } from '../photos/index.ts';
import { keepImage } from '../storage/job-store.ts';
import { solvedFit } from '../takeoff/fits/fits.ts';
import { tr } from '../words/tr.ts';
import {
  change,
  currentJob,
  keepPicture,
  newId,
  openSheet,
  say,
  sayProblem,
  store,
  takeTool,
} from './store.ts';

/** The straight picture shows this many times the extent of the marks, as far as the photo goes. */
const AROUND = 4;
const MOST_STRAIGHT_PIXELS = 6_000_000;

/** Makes a straight picture of a photo that has marks, as a sheet of its own. */
export async function makeStraightPicture(sheetId: string): Promise<void> {
  const job = currentJob();
  const sheet = job.sheets[sheetId];
  const blob = sheet?.picture && store.getState().images.get(sheet.picture.imageId);
  const warp = sheet && blob ? warpFor(job, sheet) : null;
  if (!sheet || !blob || !warp) return;
  say(tr`Straightening the photo …`);
  let image: Blob;
  try {
    image = await straightPicture(await photoOf(blob, sheet.picture!), warp);
  } catch {
    sayProblem({ code: 'image/broken', file: sheet.name });
    return;
  }
  const imageId = newId('i');
  keepPicture(imageId, image);
  const kept = await keepImage(imageId, image);
  if (!kept.ok) sayProblem(kept.problem);
  const id = newId('sheet');
  const fit: Fit = { kind: 'straightened', sheetId, toPhoto: warp.toPhoto, lens: warp.lens };
  const picture = { imageId, widthPx: warp.width, heightPx: warp.height };
  if (!change([{ type: 'add-sheet', args: { id, name: tr`${sheet.name}, straight`, picture, fit } }])) return;
  openSheet(id);
  takeTool('slab');
}

/** A photo as it was taken, or a page or drawing that shows one as it is drawn. */
async function photoOf(blob: Blob, picture: SheetPicture): Promise<Blob | ImageBitmap> {
  const { widthPx, heightPx, page = 1, password } = picture;
  const scale = Math.sqrt(MOST_PIXELS / (widthPx * heightPx));
  if (blob.type === 'application/pdf') {
    const opened = await openPage(blob, page, password);
    try {
      return await createImageBitmap(await opened.draw(0, 0, widthPx, heightPx, Math.min(3, scale)));
    } finally {
      opened.close();
    }
  }
  if (blob.type !== 'image/svg+xml') return blob;
  const resizeWidth = Math.round(widthPx * Math.min(1, scale));
  return createImageBitmap(await lineImage(blob), { resizeWidth });
}

function warpFor(job: Job, sheet: Sheet): Warp | null {
  const solved = solvedFit(job, sheet);
  const { fit, picture } = sheet;
  if (!solved || fit?.kind !== 'marks' || !picture) return null;
  const { frame } = solved;
  const marks = fit.marks.map((m) => toFrame(frame, m.at));
  // What is traced already is shown whole.
  const traced = Object.values(job.corners).filter((c) => c.sheetId === sheet.id && solved.sees(c));
  const wanted = [...marks, ...traced.map((c) => toFrame(frame, c))];
  const box = boxOf(shownGround(frame, picture.widthPx, picture.heightPx, solved.sees, marks, wanted));
  const scale = Math.min(...fit.marks.map((m) => frameScale(frame, m.at, 0.5)));
  const metresPerPixel = Math.max(
    scale,
    Math.sqrt(((box.maxX - box.minX) * (box.maxY - box.minY)) / MOST_STRAIGHT_PIXELS),
  );
  const width = Math.ceil((box.maxX - box.minX) / metresPerPixel);
  const height = Math.ceil((box.maxY - box.minY) / metresPerPixel);
  const step = frame.steps.find((s) => s.kind === 'matrix');
  const bent = frame.steps.find((s) => s.kind === 'undistort');
  const lens = bent?.kind === 'undistort' ? bent.lens : null;
  if (!step || width < 2 || height < 2) return null;
  // Down the picture is down the ground.
  const toGround: Matrix3 = [metresPerPixel, 0, box.minX, 0, -metresPerPixel, box.maxY, 0, 0, 1];
  return { width, height, toPhoto: multiplyMatrix(step.back, toGround), lens, photoWidthPx: picture.widthPx };
}

/** Ground that the photo shows, no farther from the marks than their own extent. */
function shownGround(
  frame: Frame,
  width: number,
  height: number,
  sees: (p: Point) => boolean,
  marks: readonly Point[],
  wanted: readonly Point[],
): Point[] {
  const near = boxOf(marks);
  const [w, h] = [near.maxX - near.minX, near.maxY - near.minY];
  const out = ((AROUND - 1) * Math.max(w, h)) / 2;
  const limit = {
    minX: near.minX - out,
    minY: near.minY - out,
    maxX: near.maxX + out,
    maxY: near.maxY + out,
  };
  const seen: Point[] = [...wanted];
  const steps = 24;
  for (let i = 0; i <= steps; i++) {
    for (let j = 0; j <= steps; j++) {
      const ground = {
        x: limit.minX + ((limit.maxX - limit.minX) * i) / steps,
        y: limit.minY + ((limit.maxY - limit.minY) * j) / steps,
      };
      const p = fromFrame(frame, ground);
      if (p.x >= 0 && p.y >= 0 && p.x <= width && p.y <= height && sees(p)) seen.push(ground);
    }
  }
  return seen;
}
