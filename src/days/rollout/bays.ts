import type { Floor } from './floor.ts';
import { spread, type WayOut } from './way.ts';

/** A strip narrower than a roller's two passes, or wider than an arm and pole are steady with, is not rolled. */
const NARROWEST_M = 0.6;
const WIDEST_M = 1.6;

/** Less than this is no bay to number: a roller's two passes, five metres long; common practice, no source. */
const LEAST_BAY_M2 = 3;

/** Whether the edge sets before the least bay is rolled: laps show anyway. */
export const isRushed = (wetM2: number): boolean => wetM2 < LEAST_BAY_M2;

/** What is rolled in one go: cells of one part of a strip, which may hold several bays end to end. */
export interface Laid {
  readonly cells: readonly number[];
  readonly part: number;
}

/**
 * The bays in the order that they are rolled.
 * @param wetM2 what is rolled while the edge stays wet: bays are no larger, unless that is less than the least bay
 */
export function baysOf(floor: Floor, { way, from }: WayOut, wetM2: number): Laid[] {
  const cells: number[] = [];
  for (let cell = 0; cell < way.length; cell++) if (way[cell]! < Infinity) cells.push(cell);
  if (cells.length === 0) return [];
  const deep = cells.reduce((most, cell) => Math.max(most, way[cell]!), 0) + floor.cellM;
  // Strips as wide as makes the longest of them one bay, in whole cells so that they come out even.
  const longest = longestStrip(floor, way, cells);
  const bayM2 = Math.max(wetM2, LEAST_BAY_M2);
  const wanted = Math.min(WIDEST_M, Math.max(NARROWEST_M, bayM2 / longest));
  const strips = Math.max(1, Math.round(deep / wanted));
  const width = deep / strips;
  const pieces = stripsOf(floor, way, from, cells, width);
  return inOrder(floor, pieces, (areaM2) =>
    Math.max(1, isRushed(wetM2) ? Math.round(areaM2 / bayM2) : Math.ceil(areaM2 / bayM2 - SPARE_BAYS)),
  );
}

/** A part that is larger by so much of a bay is still one. */
const SPARE_BAYS = 0.15;

/** Length of the longest strip: the largest area of a metre's depth. */
function longestStrip({ cellM }: Floor, way: Float64Array, cells: readonly number[]): number {
  const area = new Map<number, number>();
  for (const cell of cells) {
    const k = Math.floor(way[cell]!);
    area.set(k, (area.get(k) ?? 0) + cellM * cellM);
  }
  return Math.max(...area.values());
}

/** One connected part of a strip. */
interface Piece {
  readonly strip: number;
  readonly cells: number[];
  /** Parts further from the ways out that touch it or are rolled from it: they come first. */
  readonly behind: Set<number>;
}

function stripsOf(
  floor: Floor,
  way: Float64Array,
  from: Int32Array,
  cells: readonly number[],
  width: number,
): Piece[] {
  const { columns } = floor;
  const stripAt = (cell: number) => Math.floor(way[cell]! / width);
  const pieceOf = new Int32Array(way.length).fill(-1);
  const pieces: Piece[] = [];
  const around = [1, -1, columns, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1];
  for (const seed of cells) {
    if (pieceOf[seed]! >= 0) continue;
    const id = pieces.length;
    const mine = [seed];
    pieceOf[seed] = id;
    for (const cell of mine) {
      for (const step of around) {
        const next = cell + step;
        if (!(way[next]! < Infinity) || pieceOf[next]! >= 0 || stripAt(next) !== stripAt(seed)) continue;
        pieceOf[next] = id;
        mine.push(next);
      }
    }
    pieces.push({ strip: stripAt(seed), cells: mine, behind: new Set() });
  }
  mergeCrumbs(floor, pieces, pieceOf, from);
  for (const cell of cells) {
    const id = pieceOf[cell]!;
    for (const step of around) {
      const other = pieceOf[cell + step] ?? -1;
      if (other >= 0 && pieces[other]!.strip > pieces[id]!.strip) pieces[id]!.behind.add(other);
    }
    // What is rolled from across a drain is rolled before the ground it is rolled from.
    const stand = pieceOf[from[cell]!] ?? -1;
    if (stand >= 0 && stand !== id && pieces[stand]!.strip <= pieces[id]!.strip)
      pieces[stand]!.behind.add(id);
  }
  return pieces;
}

/** Less than this is not a bay of its own. */
const CRUMB_M2 = 0.3;

/** Crumbs of a strip, cut off by a void or a corner, go with the part they are rolled from, or with one that touches them. */
function mergeCrumbs(floor: Floor, pieces: readonly Piece[], pieceOf: Int32Array, from: Int32Array): void {
  const { columns, cellM } = floor;
  const around = [1, -1, columns, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1];
  const smallest = [...pieces.keys()].sort((a, b) => pieces[b]!.strip - pieces[a]!.strip);
  for (const id of smallest) {
    const { cells, strip } = pieces[id]!;
    if (cells.length === 0 || cells.length * cellM ** 2 >= CRUMB_M2) continue;
    const touching = new Map<number, number>();
    for (const cell of cells) {
      for (const next of [from[cell]!, ...around.map((step) => cell + step)]) {
        const other = pieceOf[next] ?? -1;
        // Nearer to the way out or as near: what is rolled later.
        if (other < 0 || other === id || pieces[other]!.strip > strip) continue;
        touching.set(other, (touching.get(other) ?? 0) + 1);
      }
    }
    const [best] = [...touching].sort((a, b) => b[1] - a[1])[0] ?? [];
    if (best === undefined) continue;
    for (const cell of cells) pieceOf[cell] = best;
    pieces[best]!.cells.push(...cells);
    cells.length = 0;
  }
}

/**
 * Whatever lies behind a part is rolled before it, arm after arm, so that everything nearer to a way out is still
 * unpainted; a part longer than a bay is rolled in slices from the end that was painted last.
 */
function inOrder(floor: Floor, pieces: readonly Piece[], bayCount: (areaM2: number) => number): Laid[] {
  const bays: Laid[] = [];
  const done = new Set<number>();
  const roll = (root: number): void => {
    // A stack instead of recursion: a long drive has many strips.
    const stack = [root];
    while (stack.length > 0) {
      const id = stack[stack.length - 1]!;
      if (done.has(id)) {
        stack.pop();
        continue;
      }
      // Two parts that are each rolled from the other cannot both wait.
      const waiting = [...pieces[id]!.behind].filter((b) => !done.has(b) && !stack.includes(b));
      if (waiting.length > 0) {
        // The deepest first; of those the one nearest to where the painter is.
        const last = bays[bays.length - 1]?.cells;
        waiting.sort((a, b) => near(floor, last, pieces[b]!.cells) - near(floor, last, pieces[a]!.cells));
        stack.push(waiting[waiting.length - 1]!);
        continue;
      }
      stack.pop();
      done.add(id);
      if (pieces[id]!.cells.length === 0) continue;
      const last = bays[bays.length - 1]?.cells;
      for (const cells of slices(floor, pieces[id]!.cells, bayCount, last)) bays.push({ cells, part: id });
    }
  };
  const roots = [...pieces.keys()].sort((a, b) => pieces[a]!.strip - pieces[b]!.strip);
  for (const root of roots) if (pieces[root]!.strip === 0) roll(root);
  for (const root of roots) roll(root);
  return bays;
}

/** How far a part is from the last bay, cell middle to cell middle; 0 where there was none. */
function near(floor: Floor, last: readonly number[] | undefined, cells: readonly number[]): number {
  if (!last) return 0;
  const p = floor.middle(last[last.length >> 1]!);
  const q = floor.middle(cells[cells.length >> 1]!);
  return Math.hypot(p.x - q.x, p.y - q.y);
}

/** Cuts a part across its length into so many slices of equal area. */
function slices(
  floor: Floor,
  cells: readonly number[],
  bayCount: (areaM2: number) => number,
  last: readonly number[] | undefined,
): number[][] {
  const count = bayCount(cells.length * floor.cellM ** 2);
  if (count === 1) return [[...cells]];
  const mine = new Set(cells);
  const along = new Float64Array(floor.inside.length);
  const from = (seed: number) => {
    along.fill(Infinity);
    spread(floor, along, [seed], (cell) => mine.has(cell));
  };
  // Two ends: the cell furthest from any, and the one furthest from that.
  from(cells[0]!);
  const one = furthest(cells, along);
  from(one);
  const other = furthest(cells, along);
  const ends = near(floor, last, [other]) < near(floor, last, [one]) ? other : one;
  if (ends !== one) from(ends);
  const sorted = [...cells].sort((a, b) => along[a]! - along[b]!);
  return Array.from({ length: count }, (_, k) =>
    sorted.slice(Math.round((k * sorted.length) / count), Math.round(((k + 1) * sorted.length) / count)),
  );
}

const furthest = (cells: readonly number[], along: Float64Array): number =>
  cells.reduce((best, cell) => (along[cell]! > along[best]! ? cell : best), cells[0]!);
