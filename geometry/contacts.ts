import Flatbush from 'flatbush';
import type { Lines } from './lines.ts';
import type { Box } from './point.ts';

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
 */
export function contacts(lines: Lines): Uint8Array {
  const busy = new Uint8Array(lines.x.length);
  const runs = monotoneRuns(lines, busy);
  if (runs.length <= FEW_RUNS) {
    compareAll(lines, runs, busy);
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

/** Source by source, so that whole outlines which lie apart are passed over. */
function compareAll(lines: Lines, runs: readonly Run[], busy: Uint8Array): void {
  const groups = bySource(lines, runs);
  groups.forEach((p, a) => {
    for (let b = a; b < groups.length; b++) {
      const q = groups[b]!;
      if (!meets(p, q)) continue;
      for (let i = p.first; i < p.last; i++) {
        if (!meets(runs[i]!, q)) continue;
        for (let j = a === b ? i + 1 : q.first; j < q.last; j++) compareRuns(lines, runs[i]!, runs[j]!, busy);
      }
    }
  });
}

const meets = (p: Box, q: Box): boolean =>
  p.minX - MARGIN <= q.maxX &&
  q.minX <= p.maxX + MARGIN &&
  p.minY - MARGIN <= q.maxY &&
  q.minY <= p.maxY + MARGIN;

/** The runs of each source, as a range of their list, with the box around them. */
function bySource({ source }: Lines, runs: readonly Run[]) {
  const groups: Array<Writable<Box> & { readonly source: number; readonly first: number; last: number }> = [];
  runs.forEach((r, i) => {
    const group = groups[groups.length - 1];
    if (!group || group.source !== source[r.start]) {
      const { minX, minY, maxX, maxY } = r;
      groups.push({ source: source[r.start]!, first: i, last: i + 1, minX, minY, maxX, maxY });
      return;
    }
    group.last = i + 1;
    group.minX = Math.min(group.minX, r.minX);
    group.minY = Math.min(group.minY, r.minY);
    group.maxX = Math.max(group.maxX, r.maxX);
    group.maxY = Math.max(group.maxY, r.maxY);
  });
  return groups;
}

/** Pieces from slot `start` up to slot `end`, all going the same way in x and in y, and their box in cells. */
interface Run extends Writable<Box> {
  readonly start: number;
  end: number;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

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
      busy[i] ||= 1;
      busy[j] ||= 1;
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
      run.end = i + 1;
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
  if (to[before] === i) busy[before] ||= 1;
}

function compareRuns(lines: Lines, p: Run, q: Run, busy: Uint8Array): void {
  const minX = Math.max(p.minX, q.minX) - MARGIN;
  const maxX = Math.min(p.maxX, q.maxX) + MARGIN;
  const minY = Math.max(p.minY, q.minY) - MARGIN;
  const maxY = Math.min(p.maxY, q.maxY) + MARGIN;
  if (minX > maxX || minY > maxY) return;
  const { to } = lines;
  for (let i = p.start; i < p.end; i++) {
    if (!inWindow(lines, i, minX, minY, maxX, maxY)) continue;
    for (let j = q.start; j < q.end; j++) {
      if ((busy[i] === BESIDE && busy[j] === BESIDE) || !inWindow(lines, j, minX, minY, maxX, maxY)) continue;
      if (to[i] === j ? foldsBack(lines, i, j) : to[j] === i ? foldsBack(lines, j, i) : near(lines, i, j)) {
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
  const u = Math.hypot(ux, uy);
  if (Math.abs(ux * vy - uy * vx) > ALONG * u * Math.hypot(vx, vy)) return false;
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
