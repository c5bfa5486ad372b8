import Flatbush from 'flatbush';
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
  if (runs.count <= FEW_RUNS) compareAll(lines, runs, busy);
  else compareIndexed(lines, runs, busy);
  scratch.release(mark);
}

/** Boxes in whole cells, each of what stands from `start` up to `end`. */
interface Boxes {
  count: number;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly minX: Int32Array;
  readonly minY: Int32Array;
  readonly maxX: Int32Array;
  readonly maxY: Int32Array;
}

function boxes(room: number): Boxes {
  return {
    count: 0,
    start: scratch.int32(room),
    end: scratch.int32(room),
    minX: scratch.int32(room),
    minY: scratch.int32(room),
    maxX: scratch.int32(room),
    maxY: scratch.int32(room),
  };
}

function compareIndexed(lines: Lines, runs: Boxes, busy: Int32Array): void {
  const { count, minX, minY, maxX, maxY } = runs;
  const index = new Flatbush(count);
  for (let r = 0; r < count; r++) index.add(minX[r]!, minY[r]!, maxX[r]!, maxY[r]!);
  index.finish();
  for (let r = 0; r < count; r++) {
    index.search(minX[r]! - MARGIN, minY[r]! - MARGIN, maxX[r]! + MARGIN, maxY[r]! + MARGIN, (other) => {
      if (other > r) compareRuns(lines, runs, r, other, busy);
      return false;
    });
  }
}

/** Source by source, so that whole outlines which lie apart are passed over. */
function compareAll(lines: Lines, runs: Boxes, busy: Int32Array): void {
  const groups = bySource(lines, runs);
  for (let a = 0; a < groups.count; a++) {
    const end = groups.end[a]!;
    for (let r = groups.start[a]!; r < end; r++) compareWith(lines, runs, r, r + 1, end, busy);
    for (let b = a + 1; b < groups.count; b++) {
      if (!near(groups, a, groups, b)) continue;
      for (let r = groups.start[a]!; r < end; r++) {
        if (near(runs, r, groups, b)) compareWith(lines, runs, r, groups.start[b]!, groups.end[b]!, busy);
      }
    }
  }
}

/** Run r against those from `start` up to `end`. */
function compareWith(
  lines: Lines,
  runs: Boxes,
  r: number,
  start: number,
  end: number,
  busy: Int32Array,
): void {
  const { minX, minY, maxX, maxY } = runs;
  const left = minX[r]! - MARGIN;
  const right = maxX[r]! + MARGIN;
  const low = minY[r]! - MARGIN;
  const high = maxY[r]! + MARGIN;
  for (let other = start; other < end; other++) {
    if (minX[other]! > right || maxX[other]! < left || minY[other]! > high || maxY[other]! < low) continue;
    compareRuns(lines, runs, r, other, busy);
  }
}

const near = (p: Boxes, i: number, q: Boxes, j: number): boolean =>
  p.minX[i]! - MARGIN <= q.maxX[j]! &&
  q.minX[j]! - MARGIN <= p.maxX[i]! &&
  p.minY[i]! - MARGIN <= q.maxY[j]! &&
  q.minY[j]! - MARGIN <= p.maxY[i]!;

/** The runs of each source, with the box around them. */
function bySource({ source, sources }: Lines, runs: Boxes): Boxes {
  const groups = boxes(sources.count);
  let g = -1;
  for (let r = 0; r < runs.count; r++) {
    if (g < 0 || source[runs.start[r]!] !== source[runs.start[groups.start[g]!]!]) {
      g = groups.count++;
      groups.start[g] = r;
      groups.minX[g] = runs.minX[r]!;
      groups.minY[g] = runs.minY[r]!;
      groups.maxX[g] = runs.maxX[r]!;
      groups.maxY[g] = runs.maxY[r]!;
    }
    groups.end[g] = r + 1;
    groups.minX[g] = Math.min(groups.minX[g]!, runs.minX[r]!);
    groups.minY[g] = Math.min(groups.minY[g]!, runs.minY[r]!);
    groups.maxX[g] = Math.max(groups.maxX[g]!, runs.maxX[r]!);
    groups.maxY[g] = Math.max(groups.maxY[g]!, runs.maxY[r]!);
  }
  return groups;
}

/** Pieces in a row that all go the same way in x and in y. */
function monotoneRuns(lines: Lines, busy: Int32Array): Boxes {
  const { cx, cy, to, source } = lines;
  const runs = boxes(to.length);
  const { start, end, minX, minY, maxX, maxY } = runs;
  let r = -1;
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
    if (r < 0 || way !== heading || end[r] !== i || source[start[r]!] !== source[i] || i - start[r]! >= RUN) {
      r++;
      heading = way;
      start[r] = i;
      minX[r] = dx < 0 ? bx : ax;
      maxX[r] = dx < 0 ? ax : bx;
      minY[r] = dy < 0 ? by : ay;
      maxY[r] = dy < 0 ? ay : by;
    } else if (dx < 0) minX[r] = bx;
    else maxX[r] = bx;
    end[r] = i + 1;
    if (dy < 0) minY[r] = Math.min(minY[r]!, by);
    else maxY[r] = Math.max(maxY[r]!, by);
  }
  runs.count = r + 1;
  return runs;
}

/** Marks the piece that ends at slot i. */
function markBefore({ first, source, to }: Lines, i: number, busy: Int32Array): void {
  const start = first[source[i]!]!;
  const before = i > start ? i - 1 : first[source[i]! + 1]! - 1;
  if (to[before] === i) busy[before] = 1;
}

function compareRuns(lines: Lines, runs: Boxes, p: number, q: number, busy: Int32Array): void {
  const minX = Math.max(runs.minX[p]!, runs.minX[q]!) - MARGIN;
  const maxX = Math.min(runs.maxX[p]!, runs.maxX[q]!) + MARGIN;
  const minY = Math.max(runs.minY[p]!, runs.minY[q]!) - MARGIN;
  const maxY = Math.min(runs.maxY[p]!, runs.maxY[q]!) + MARGIN;
  const { to } = lines;
  for (let i = runs.start[p]!; i < runs.end[p]!; i++) {
    if (!inWindow(lines, i, minX, minY, maxX, maxY)) continue;
    for (let j = runs.start[q]!; j < runs.end[q]!; j++) {
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
  if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) return false;
  const ay = cy[i]!;
  const by = cy[j]!;
  return !((ay < minY && by < minY) || (ay > maxY && by > maxY));
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
