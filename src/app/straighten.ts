import {
  applyMatrix,
  boxOf,
  distort,
  type Frame,
  frameScale,
  fromFrame,
  type Lens,
  type Matrix3,
  multiplyMatrix,
  type Point,
  toFrame,
} from '../../geometry/index.ts';
import type { Fit, Job, Sheet, SheetPicture } from '../job/types.ts';
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
const MOST_PIXELS = 6_000_000;

/** Makes a straight picture of a photo that has marks, as a sheet of its own. */
export async function makeStraightPicture(sheetId: string): Promise<void> {
  const job = currentJob();
  const sheet = job.sheets[sheetId];
  const blob = sheet?.picture && store.getState().images.get(sheet.picture.imageId);
  const plan = sheet && blob ? planFor(job, sheet) : null;
  if (!sheet || !blob || !plan) return;
  say(tr`Straightening the photo …`);
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(blob, smaller(sheet.picture!));
  } catch {
    sayProblem({ code: 'image/broken', file: sheet.name });
    return;
  }
  const image = await warp(bitmap, plan, bitmap.width / sheet.picture!.widthPx);
  bitmap.close();
  const imageId = newId('i');
  keepPicture(imageId, image);
  const kept = await keepImage(imageId, image);
  if (!kept.ok) sayProblem(kept.problem);
  const id = newId('sheet');
  const fit: Fit = { kind: 'straightened', sheetId, toPhoto: plan.toPhoto, lens: plan.lens };
  const picture = { imageId, widthPx: plan.width, heightPx: plan.height };
  if (!change([{ type: 'add-sheet', args: { id, name: tr`${sheet.name}, straight`, picture, fit } }])) return;
  openSheet(id);
  takeTool('slab');
}

interface Plan {
  readonly width: number;
  readonly height: number;
  /** From the straight picture's pixels to those of a photo without bends, and the bends. */
  readonly toPhoto: Matrix3;
  readonly lens: Lens | null;
}

function planFor(job: Job, sheet: Sheet): Plan | null {
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
    Math.sqrt(((box.maxX - box.minX) * (box.maxY - box.minY)) / MOST_PIXELS),
  );
  const width = Math.ceil((box.maxX - box.minX) / metresPerPixel);
  const height = Math.ceil((box.maxY - box.minY) / metresPerPixel);
  const step = frame.steps.find((s) => s.kind === 'matrix');
  const bent = frame.steps.find((s) => s.kind === 'undistort');
  const lens = bent?.kind === 'undistort' ? bent.lens : null;
  if (!step || width < 2 || height < 2) return null;
  // Down the picture is down the ground.
  const toGround: Matrix3 = [metresPerPixel, 0, box.minX, 0, -metresPerPixel, box.maxY, 0, 0, 1];
  return { width, height, toPhoto: multiplyMatrix(step.back, toGround), lens };
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

/** Rows worked through before the page may breathe. */
const ROWS_AT_ONCE = 64;

/** Pixels of a photo that are worked on at once; a larger one is taken smaller. */
const MOST_SOURCE_PIXELS = 16_000_000;

function smaller({ widthPx, heightPx }: SheetPicture): ImageBitmapOptions {
  const shrink = Math.sqrt(MOST_SOURCE_PIXELS / (widthPx * heightPx));
  return shrink < 1 ? { resizeWidth: Math.round(widthPx * shrink), resizeQuality: 'low' } : {};
}

/** @param scale pixels of the bitmap for one of the photo */
async function warp(
  bitmap: ImageBitmap,
  { width, height, toPhoto, lens }: Plan,
  scale: number,
): Promise<Blob> {
  const source = drawn(bitmap);
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  for (let top = 0; top < height; top += ROWS_AT_ONCE) {
    const rows = Math.min(ROWS_AT_ONCE, height - top);
    const strip = new ImageData(width, rows);
    fillStrip(strip, top, source, { toPhoto, lens, scale });
    context.putImageData(strip, 0, top);
    await new Promise((resolve) => setTimeout(resolve));
  }
  return canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
}

function drawn(bitmap: ImageBitmap): ImageData {
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  context.drawImage(bitmap, 0, 0);
  return context.getImageData(0, 0, bitmap.width, bitmap.height);
}

/** Each pixel from the four of the photo about where it comes from. */
function fillStrip(
  strip: ImageData,
  top: number,
  photo: ImageData,
  { toPhoto, lens, scale }: Pick<Plan, 'toPhoto' | 'lens'> & { readonly scale: number },
): void {
  const { data } = strip;
  for (let v = 0; v < strip.height; v++) {
    for (let u = 0; u < strip.width; u++) {
      const p = applyMatrix(toPhoto, { x: u + 0.5, y: top + v + 0.5 });
      const q = lens ? distort(lens, p) : p;
      const at = (v * strip.width + u) * 4;
      data[at + 3] = 255;
      const [x, y] = [q.x * scale - 0.5, q.y * scale - 0.5];
      const [i, j] = [Math.floor(x), Math.floor(y)];
      if (!(i >= 0 && j >= 0 && i + 1 < photo.width && j + 1 < photo.height)) {
        data.fill(238, at, at + 3);
        continue;
      }
      const [fx, fy] = [x - i, y - j];
      const a = (j * photo.width + i) * 4;
      const b = a + photo.width * 4;
      for (let c = 0; c < 3; c++) {
        const above = photo.data[a + c]! * (1 - fx) + photo.data[a + 4 + c]! * fx;
        const below = photo.data[b + c]! * (1 - fx) + photo.data[b + 4 + c]! * fx;
        data[at + c] = above * (1 - fy) + below * fy;
      }
    }
  }
}
