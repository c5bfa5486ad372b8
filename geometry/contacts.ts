import Flatbush from 'flatbush';
import { anyNegative } from './any-negative.ts';
import { scratch } from './columns.ts';
import type { Lines } from './lines.ts';

/** Pieces nearer than this many cells to another are noded; snap rounding moves nothing as far. */
const MARGIN = 4;

/** A piece shorter than this is noded together with its neighbours. */
const SHORT = 8;

/** Longest run of pieces that is boxed as one. */
const RUN = 32;

/** Above this many runs an index pays for itself. */
const FEW_RUNS = 400;

/** Of two directions whose sine is below this, a line within a cell of another runs beside it rather than across it. */
const ALONG = 0.1;

/** Distance at which two lines are one. */
const SAME_LINE = 1e-10;

/** What `contacts` says of a piece that runs within a few cells of another that is not quite the same line. */
export const BESIDE = 2;

/**
 * Which pieces cross, touch or come within a few cells of a piece that is not their neighbour, or fold back on one that
 * is: 1, or `BESIDE`. Only these need noding: every other piece is an edge as it stands. Pieces are boxed in runs that climb or fall
 * the same way throughout, within which nothing can meet.
 * @param busy where the answer goes, by slot; zero before
 */
export function contacts(lines: Lines, busy: Int32Array): void {
  const mark = scratch.mark();
  const runs = monotoneRuns(lines, busy);
  if (runs.end <= FEW_RUNS * SIZE) compareAll(lines, runs, busy);
  else compareIndexed(lines, runs, busy);
  scratch.release(mark);
}

/**
 * Boxes in whole cells, each of what stands from `START` up to `END`. They go by the place in the column at which they
 * begin; a column for each number would take longer to make than to look at.
 */
interface Boxes {
  /** Where the next one would begin. */
  end: number;
  readonly at: Int32Array;
}

/** Numbers to a box, and the place of each. */
const SIZE = 6;
const START = 0;
const END = 1;
const MIN_X = 2;
const MIN_Y = 3;
const MAX_X = 4;
const MAX_Y = 5;

const boxes = (room: number): Boxes => ({ end: 0, at: scratch.int32(SIZE * room) });

function compareIndexed(lines: Lines, { end, at }: Boxes, busy: Int32Array): void {
  const index = new Flatbush(end / SIZE);
  for (let r = 0; r < end; r += SIZE)
    index.add(at[r + MIN_X]!, at[r + MIN_Y]!, at[r + MAX_X]!, at[r + MAX_Y]!);
  index.finish();
  for (let r = 0; r < end; r += SIZE) {
    index.search(
      at[r + MIN_X]! - MARGIN,
      at[r + MIN_Y]! - MARGIN,
      at[r + MAX_X]! + MARGIN,
      at[r + MAX_Y]! + MARGIN,
      (k) => {
        if (k * SIZE > r) compareRuns(lines, at, r, k * SIZE, busy);
        return false;
      },
    );
  }
}

/** Source by source, so that whole outlines which lie apart are passed over. */
function compareAll(lines: Lines, runs: Boxes, busy: Int32Array): void {
  const groups = bySource(lines, runs);
  const { at } = groups;
  for (let a = 0; a < groups.end; a += SIZE) {
    const end = at[a + END]!;
    for (let r = at[a + START]!; r < end; r += SIZE) compareWith(lines, runs, r, r + SIZE, end, busy);
    for (let b = a + SIZE; b < groups.end; b += SIZE) {
      if (!near(at, a, at, b)) continue;
      for (let r = at[a + START]!; r < end; r += SIZE) {
        if (near(runs.at, r, at, b)) compareWith(lines, runs, r, at[b + START]!, at[b + END]!, busy);
      }
    }
  }
}

/** Run r against those from `start` up to `end`. */
function compareWith(
  lines: Lines,
  { at }: Boxes,
  r: number,
  start: number,
  end: number,
  busy: Int32Array,
): void {
  const left = at[r + MIN_X]! - MARGIN;
  const right = at[r + MAX_X]! + MARGIN;
  const low = at[r + MIN_Y]! - MARGIN;
  const high = at[r + MAX_Y]! + MARGIN;
  for (let s = start; s < end; s += SIZE) {
    if (
      anyNegative(right - at[s + MIN_X]!, at[s + MAX_X]! - left, high - at[s + MIN_Y]!, at[s + MAX_Y]! - low)
    )
      continue;
    compareRuns(lines, at, r, s, busy);
  }
}

const near = (p: Int32Array, i: number, q: Int32Array, j: number): boolean =>
  !anyNegative(
    q[j + MAX_X]! - p[i + MIN_X]! + MARGIN,
    p[i + MAX_X]! - q[j + MIN_X]! + MARGIN,
    q[j + MAX_Y]! - p[i + MIN_Y]! + MARGIN,
    p[i + MAX_Y]! - q[j + MIN_Y]! + MARGIN,
  );

/** The runs of each source, with the box around them. */
function bySource({ source, sources }: Lines, runs: Boxes): Boxes {
  const groups = boxes(sources.count);
  const { at } = groups;
  let g = -1;
  for (let r = 0; r < runs.end; r += SIZE) {
    if (g < 0 || source[runs.at[r + START]!] !== source[runs.at[at[g + START]! + START]!]) {
      g = groups.end;
      groups.end += SIZE;
      at[g + START] = r;
      for (let k = MIN_X; k <= MAX_Y; k++) at[g + k] = runs.at[r + k]!;
    }
    at[g + END] = r + SIZE;
    at[g + MIN_X] = Math.min(at[g + MIN_X]!, runs.at[r + MIN_X]!);
    at[g + MIN_Y] = Math.min(at[g + MIN_Y]!, runs.at[r + MIN_Y]!);
    at[g + MAX_X] = Math.max(at[g + MAX_X]!, runs.at[r + MAX_X]!);
    at[g + MAX_Y] = Math.max(at[g + MAX_Y]!, runs.at[r + MAX_Y]!);
  }
  return groups;
}

/** Pieces in a row that all go the same way in x and in y. */
function monotoneRuns(lines: Lines, busy: Int32Array): Boxes {
  const { cx, cy, to, source } = lines;
  const runs = boxes(to.length);
  const { at } = runs;
  let r = -SIZE;
  let heading = -1;
  for (let i = 0; i < to.length; i++) {
    const j = to[i]!;
    if (j < 0) continue;
    const ax = cx[i]!;
    const ay = cy[i]!;
    const bx = cx[j]!;
    const by = cy[j]!;
    const dx = bx - ax;
    const dy = by - ay;
    if (Math.abs(dx) < SHORT && Math.abs(dy) < SHORT) {
      busy[i] = 1;
      busy[j] = 1;
      markBefore(lines, i, busy);
    }
    const way = (dx >= 0 ? 0 : 1) + (dy >= 0 ? 0 : 2);
    const goesOn =
      way === heading &&
      at[r + END] === i &&
      source[at[r + START]!] === source[i] &&
      i - at[r + START]! < RUN;
    if (!goesOn) {
      r += SIZE;
      heading = way;
      at[r + START] = i;
      at[r + MIN_X] = dx < 0 ? bx : ax;
      at[r + MAX_X] = dx < 0 ? ax : bx;
      at[r + MIN_Y] = dy < 0 ? by : ay;
      at[r + MAX_Y] = dy < 0 ? ay : by;
    } else {
      at[r + (dx < 0 ? MIN_X : MAX_X)] = bx;
      at[r + (dy < 0 ? MIN_Y : MAX_Y)] = by;
    }
    at[r + END] = i + 1;
  }
  runs.end = r + SIZE;
  return runs;
}

/** Marks the piece that ends at slot i. */
function markBefore({ first, source, to }: Lines, i: number, busy: Int32Array): void {
  const start = first[source[i]!]!;
  const before = i > start ? i - 1 : first[source[i]! + 1]! - 1;
  if (to[before] === i) busy[before] = 1;
}

function compareRuns(lines: Lines, at: Int32Array, p: number, q: number, busy: Int32Array): void {
  const minX = Math.max(at[p + MIN_X]!, at[q + MIN_X]!) - MARGIN;
  const maxX = Math.min(at[p + MAX_X]!, at[q + MAX_X]!) + MARGIN;
  const minY = Math.max(at[p + MIN_Y]!, at[q + MIN_Y]!) - MARGIN;
  const maxY = Math.min(at[p + MAX_Y]!, at[q + MAX_Y]!) + MARGIN;
  const { to } = lines;
  for (let i = at[p + START]!; i < at[p + END]!; i++) {
    if (!inWindow(lines, i, minX, minY, maxX, maxY)) continue;
    for (let j = at[q + START]!; j < at[q + END]!; j++) {
      if ((busy[i] === BESIDE && busy[j] === BESIDE) || !inWindow(lines, j, minX, minY, maxX, maxY)) continue;
      if (
        to[i] === j ? foldsBack(lines, i, j) : to[j] === i ? foldsBack(lines, j, i) : comesNear(lines, i, j)
      ) {
        const how = runsBeside(lines, i, j) ? BESIDE : 1;
        if (busy[i]! < how) busy[i] = how;
        if (busy[j]! < how) busy[j] = how;
      }
    }
  }
}

/** False when both ends of a piece lie beyond one side of the box. */
function inWindow(
  { cx, cy, to }: Lines,
  i: number,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
): boolean {
  const j = to[i]!;
  const ax = cx[i]!;
  const bx = cx[j]!;
  const ay = cy[i]!;
  const by = cy[j]!;
  return !anyNegative(
    Math.max(ax, bx) - minX,
    maxX - Math.min(ax, bx),
    Math.max(ay, by) - minY,
    maxY - Math.min(ay, by),
  );
}

/** Whether two pieces go much the same way on lines that are truly apart. */
function runsBeside({ x, y, to }: Lines, i: number, j: number): boolean {
  const ux = x[to[i]!]! - x[i]!;
  const uy = y[to[i]!]! - y[i]!;
  const vx = x[to[j]!]! - x[j]!;
  const vy = y[to[j]!]! - y[j]!;
  const u = Math.sqrt(ux * ux + uy * uy);
  if (Math.abs(ux * vy - uy * vx) > ALONG * u * Math.sqrt(vx * vx + vy * vy)) return false;
  const off = (k: number) => Math.abs(ux * (y[k]! - y[i]!) - uy * (x[k]! - x[i]!));
  return off(j) > SAME_LINE * u || off(to[j]!) > SAME_LINE * u;
}

/** Whether piece j, which begins where piece i ends, lies back along it. */
function foldsBack({ cx, cy, to }: Lines, i: number, j: number): boolean {
  const k = to[j]!;
  if (k === i) return true;
  const ux = cx[i]! - cx[j]!;
  const uy = cy[i]! - cy[j]!;
  const vx = cx[k]! - cx[j]!;
  const vy = cy[k]! - cy[j]!;
  if (ux * vx + uy * vy <= 0) return false;
  const longest = Math.sqrt(Math.max(ux * ux + uy * uy, vx * vx + vy * vy));
  return Math.abs(ux * vy - uy * vx) <= MARGIN * longest;
}

/** False only when the line of one of them keeps the other well to one side, or their boxes are apart. */
function comesNear({ cx, cy, to }: Lines, i: number, j: number): boolean {
  const ax = cx[i]!;
  const ay = cy[i]!;
  const bx = cx[to[i]!]!;
  const by = cy[to[i]!]!;
  const px = cx[j]!;
  const py = cy[j]!;
  const qx = cx[to[j]!]!;
  const qy = cy[to[j]!]!;
  if (Math.min(ax, bx) - MARGIN > Math.max(px, qx) || Math.min(px, qx) - MARGIN > Math.max(ax, bx))
    return false;
  if (Math.min(ay, by) - MARGIN > Math.max(py, qy) || Math.min(py, qy) - MARGIN > Math.max(ay, by))
    return false;
  return !toOneSide(ax, ay, bx, by, px, py, qx, qy) && !toOneSide(px, py, qx, qy, ax, ay, bx, by);
}

function toOneSide(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  px: number,
  py: number,
  qx: number,
  qy: number,
): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const p = dx * (py - ay) - dy * (px - ax);
  const q = dx * (qy - ay) - dy * (qx - ax);
  if (p > 0 !== q > 0) return false;
  const least = Math.min(Math.abs(p), Math.abs(q));
  return least * least > MARGIN * MARGIN * (dx * dx + dy * dy);
}
