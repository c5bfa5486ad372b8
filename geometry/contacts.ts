import Flatbush from 'flatbush';
import { anyNegative } from './any-negative.ts';
import { scratch } from './columns.ts';
import type { Lines } from './lines.ts';
import { BESIDE, MARGIN, meeting } from './meeting.ts';

/** A piece shorter than this is noded together with its neighbours. */
const SHORT = 8;

/** Longest run of pieces that is boxed as one. */
const RUN = 32;

/** Above this many runs an index pays for itself. */
const FEW_RUNS = 400;

/** As many pairs to a piece are kept for the next time: more are found again as quickly. */
const FEW_PAIRS = 4;

/** Up to this many pieces that moved are held against each of the others. */
const FEW_MOVED = 16;

/** Which pieces meet, of lines as they were: what has not moved since need not be looked at again. */
export interface Contacts {
  readonly lines: Lines;
  /** Of each pair the earlier slot, the later, and how they meet. */
  readonly pairs: readonly number[];
}

/**
 * Which pieces cross, touch or come within a few cells of a piece that is not their neighbour, or fold back on one that
 * is: 1, or `BESIDE`. Only these need noding: every other piece is an edge as it stands.
 * @param busy where the answer goes, by slot; zero before
 * @param before any lines that were looked at, of which these may be all but the same; the answer does not depend on it
 * @returns what to give the next time; null when that would not help
 */
export function contacts(lines: Lines, busy: Int32Array, before: Contacts | null = null): Contacts | null {
  const mark = scratch.mark();
  markShort(lines, busy);
  const search = new Search(lines, busy);
  const moved = before && movedSince(before.lines, lines);
  if (moved) search.again(before!.pairs, moved);
  else search.all();
  scratch.release(mark);
  return search.pairs && { lines, pairs: search.pairs };
}

/** Marks pieces of a few cells, and those before and behind them. */
function markShort({ cx, cy, to, first, source }: Lines, busy: Int32Array): void {
  for (let i = 0; i < to.length; i++) {
    const j = to[i]!;
    if (j < 0 || !isShort(cx[j]! - cx[i]!, cy[j]! - cy[i]!)) continue;
    busy[i] = 1;
    busy[j] = 1;
    const start = first[source[i]!]!;
    const before = i > start ? i - 1 : first[source[i]! + 1]! - 1;
    if (to[before] === i) busy[before] = 1;
  }
}

const isShort = (dx: number, dy: number): boolean => Math.abs(dx) < SHORT && Math.abs(dy) < SHORT;

/** 1 for each piece with an end that has moved; null when the lines are others, or more than a few have moved. */
function movedSince(old: Lines, { grid, x, y, to }: Lines): Int32Array | null {
  const n = to.length;
  if (old.to.length !== n || old.grid.originX !== grid.originX || old.grid.originY !== grid.originY)
    return null;
  if (old.grid.cell !== grid.cell) return null;
  const moved = scratch.int32(n).fill(0);
  let count = 0;
  for (let i = 0; i < n; i++) {
    const j = to[i]!;
    if (old.to[i] !== j) return null;
    if (j < 0 || (x[i] === old.x[i] && y[i] === old.y[i] && x[j] === old.x[j] && y[j] === old.y[j])) continue;
    moved[i] = 1;
    if (++count > FEW_MOVED) return null;
  }
  return moved;
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

/** One search for pieces that meet; marks them as it finds them. */
class Search {
  /** As in `Contacts`; null once there are too many. */
  pairs: number[] | null = [];

  constructor(
    private readonly lines: Lines,
    private readonly busy: Int32Array,
  ) {}

  /** Looks at everything: in runs of pieces that climb or fall the same way throughout, within which nothing can meet. */
  all(): void {
    const runs = monotoneRuns(this.lines);
    if (runs.end <= FEW_RUNS * SIZE) this.compareAll(runs);
    else this.compareIndexed(runs);
  }

  /** Looks at the pieces that moved only. */
  again(pairs: readonly number[], moved: Int32Array): void {
    for (let k = 0; k < pairs.length; k += 3) {
      const i = pairs[k]!;
      const j = pairs[k + 1]!;
      if (!moved[i] && !moved[j]) this.note(i, j, pairs[k + 2]!);
    }
    const { cx, cy, to } = this.lines;
    for (let i = 0; i < moved.length; i++) {
      if (!moved[i]) continue;
      const end = to[i]!;
      const minX = Math.min(cx[i]!, cx[end]!) - MARGIN;
      const minY = Math.min(cy[i]!, cy[end]!) - MARGIN;
      const maxX = Math.max(cx[i]!, cx[end]!) + MARGIN;
      const maxY = Math.max(cy[i]!, cy[end]!) + MARGIN;
      for (let j = 0; j < moved.length; j++) {
        // Of two that moved the earlier has seen the later.
        if (to[j]! < 0 || (j <= i && moved[j]) || !inWindow(this.lines, j, minX, minY, maxX, maxY)) continue;
        this.compare(Math.min(i, j), Math.max(i, j));
      }
    }
  }

  private compareIndexed({ end, at }: Boxes): void {
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
          if (k * SIZE > r) this.compareRuns(at, r, k * SIZE);
          return false;
        },
      );
    }
  }

  /** Source by source, so that whole outlines which lie apart are passed over. */
  private compareAll(runs: Boxes): void {
    const groups = bySource(this.lines, runs);
    const { at } = groups;
    for (let a = 0; a < groups.end; a += SIZE) {
      const end = at[a + END]!;
      for (let r = at[a + START]!; r < end; r += SIZE) this.compareWith(runs, r, r + SIZE, end);
      for (let b = a + SIZE; b < groups.end; b += SIZE) {
        if (!near(at, a, at, b)) continue;
        for (let r = at[a + START]!; r < end; r += SIZE) {
          if (near(runs.at, r, at, b)) this.compareWith(runs, r, at[b + START]!, at[b + END]!);
        }
      }
    }
  }

  /** Run r against those from `start` up to `end`. */
  private compareWith({ at }: Boxes, r: number, start: number, end: number): void {
    const left = at[r + MIN_X]! - MARGIN;
    const right = at[r + MAX_X]! + MARGIN;
    const low = at[r + MIN_Y]! - MARGIN;
    const high = at[r + MAX_Y]! + MARGIN;
    for (let s = start; s < end; s += SIZE) {
      if (
        anyNegative(
          right - at[s + MIN_X]!,
          at[s + MAX_X]! - left,
          high - at[s + MIN_Y]!,
          at[s + MAX_Y]! - low,
        )
      )
        continue;
      this.compareRuns(at, r, s);
    }
  }

  private compareRuns(at: Int32Array, p: number, q: number): void {
    const minX = Math.max(at[p + MIN_X]!, at[q + MIN_X]!) - MARGIN;
    const maxX = Math.min(at[p + MAX_X]!, at[q + MAX_X]!) + MARGIN;
    const minY = Math.max(at[p + MIN_Y]!, at[q + MIN_Y]!) - MARGIN;
    const maxY = Math.min(at[p + MAX_Y]!, at[q + MAX_Y]!) + MARGIN;
    for (let i = at[p + START]!; i < at[p + END]!; i++) {
      if (!inWindow(this.lines, i, minX, minY, maxX, maxY)) continue;
      for (let j = at[q + START]!; j < at[q + END]!; j++)
        if (inWindow(this.lines, j, minX, minY, maxX, maxY)) this.compare(i, j);
    }
  }

  /** Two pieces, the earlier first. */
  private compare(i: number, j: number): void {
    // No more can be said of them, and nobody wants to know of the pair.
    if (!this.pairs && this.busy[i] === BESIDE && this.busy[j] === BESIDE) return;
    const how = meeting(this.lines, i, j);
    if (how > 0) this.note(i, j, how);
  }

  private note(i: number, j: number, how: number): void {
    const { busy, pairs } = this;
    if (busy[i]! < how) busy[i] = how;
    if (busy[j]! < how) busy[j] = how;
    if (!pairs) return;
    if (pairs.length < 3 * FEW_PAIRS * busy.length) pairs.push(i, j, how);
    else this.pairs = null;
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

/** Pieces in a row that all go the same way in x and in y; those of a few cells by themselves, as their neighbours may meet. */
function monotoneRuns({ cx, cy, to, source }: Lines): Boxes {
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
    const way = isShort(dx, dy) ? -1 : (dx >= 0 ? 0 : 1) + (dy >= 0 ? 0 : 2);
    const goesOn =
      way >= 0 &&
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
