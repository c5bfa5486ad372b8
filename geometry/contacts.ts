import Flatbush from 'flatbush';
import type { Lines } from './lines.ts';

/** Pieces nearer than this many cells to another are noded; snap rounding moves nothing as far. */
const MARGIN = 4;

/** A piece shorter than this is noded together with its neighbours. */
const SHORT = 8;

/** Longest run of pieces that is boxed as one. */
const RUN = 32;

/** Above this many runs an index pays for itself. */
const FEW_RUNS = 96;

/**
 * Which pieces cross, touch or come within a few cells of a piece that is not their neighbour, or fold back on one that
 * is. Only these need noding: every other piece is an edge as it stands. Pieces are boxed in runs that climb or fall
 * the same way throughout, within which nothing can meet.
 */
export function contacts(lines: Lines): Uint8Array {
  const busy = new Uint8Array(lines.x.length);
  const runs = monotoneRuns(lines, busy);
  if (runs.length <= FEW_RUNS) {
    for (let i = 0; i < runs.length; i++) {
      for (let j = i + 1; j < runs.length; j++) compareRuns(lines, runs[i]!, runs[j]!, busy);
    }
    return busy;
  }
  const index = new Flatbush(runs.length);
  for (const r of runs) index.add(r.minX, r.minY, r.maxX, r.maxY);
  index.finish();
  runs.forEach((r, i) => {
    index.search(r.minX - MARGIN, r.minY - MARGIN, r.maxX + MARGIN, r.maxY + MARGIN, (j) => {
      if (j > i) compareRuns(lines, r, runs[j]!, busy);
      return false;
    });
  });
  return busy;
}

/** Pieces from slot `start` up to slot `end`, all going the same way in x and in y, and their box in cells. */
interface Run {
  readonly start: number;
  readonly end: number;
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

function monotoneRuns(lines: Lines, busy: Uint8Array): Run[] {
  const { cx, cy, to, source } = lines;
  const runs: Run[] = [];
  let run: Run | null = null;
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
    if (
      run === null ||
      way !== heading ||
      run.end !== i ||
      source[run.start] !== source[i] ||
      i - run.start >= RUN
    ) {
      if (run) runs.push(run);
      run = {
        start: i,
        end: i + 1,
        minX: Math.min(ax, bx),
        minY: Math.min(ay, by),
        maxX: Math.max(ax, bx),
        maxY: Math.max(ay, by),
      };
      heading = way;
    } else {
      (run as { end: number }).end = i + 1;
      if (bx < run.minX) run.minX = bx;
      if (bx > run.maxX) run.maxX = bx;
      if (by < run.minY) run.minY = by;
      if (by > run.maxY) run.maxY = by;
    }
  }
  if (run) runs.push(run);
  return runs;
}

/** Marks the piece that ends at slot i. */
function markBefore({ first, source, to }: Lines, i: number, busy: Uint8Array): void {
  const start = first[source[i]!]!;
  const before = i > start ? i - 1 : first[source[i]! + 1]! - 1;
  if (to[before] === i) busy[before] = 1;
}

function compareRuns(lines: Lines, p: Run, q: Run, busy: Uint8Array): void {
  const minX = Math.max(p.minX, q.minX) - MARGIN;
  const maxX = Math.min(p.maxX, q.maxX) + MARGIN;
  const minY = Math.max(p.minY, q.minY) - MARGIN;
  const maxY = Math.min(p.maxY, q.maxY) + MARGIN;
  if (minX > maxX || minY > maxY) return;
  const { cx, cy, to } = lines;
  const inWindow = (i: number): boolean => {
    const j = to[i]!;
    const ax = cx[i]!;
    const bx = cx[j]!;
    if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) return false;
    const ay = cy[i]!;
    const by = cy[j]!;
    return !((ay < minY && by < minY) || (ay > maxY && by > maxY));
  };
  for (let i = p.start; i < p.end; i++) {
    if (!inWindow(i)) continue;
    for (let j = q.start; j < q.end; j++) {
      if ((busy[i] && busy[j]) || !inWindow(j)) continue;
      if (to[i] === j ? foldsBack(lines, i, j) : to[j] === i ? foldsBack(lines, j, i) : near(lines, i, j)) {
        busy[i] = 1;
        busy[j] = 1;
      }
    }
  }
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
function near({ cx, cy, to }: Lines, i: number, j: number): boolean {
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
