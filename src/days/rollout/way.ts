import FlatQueue from 'flatqueue';
import type { Floor } from './floor.ts';

/** Further than this from where somebody can stand a pole does not reach. */
const REACH_M = 1;

/** How far each cell is from a way out, and where whoever rolls it stands. */
export interface WayOut {
  /** Walking, then with the pole; infinite where nobody gets. */
  readonly way: Float64Array;
  /** The cell that a cell too narrow to stand in is reached from; itself elsewhere. */
  readonly from: Int32Array;
}

/** Walks the floor from its ways out, and reaches with a pole, over drains too, where nobody can stand. */
export function wayOut(floor: Floor): WayOut {
  const way = new Float64Array(floor.inside.length).fill(Infinity);
  spread(floor, way, floor.doors, (cell) => floor.standing[cell] === 1);
  const stood = way.slice();
  const reached: number[] = [];
  for (let cell = 0; cell < way.length; cell++) if (stood[cell]! < Infinity) reached.push(cell);
  const reach = new Float64Array(way.length).fill(Infinity);
  const from = new Int32Array(way.length).fill(-1);
  spread(floor, reach, reached, (cell) => floor.ground[cell] === 1, null, from);
  for (let cell = 0; cell < way.length; cell++) {
    if (stood[cell]! < Infinity) continue;
    const near = floor.inside[cell] === 1 && reach[cell]! <= REACH_M;
    way[cell] = near ? stood[from[cell]!]! + reach[cell]! : Infinity;
  }
  return { way, from };
}

/** Dijkstra over eight neighbours from some cells on, by a distance they start with; tells where each was reached from. */
export function spread(
  { columns, cellM }: Floor,
  distances: Float64Array,
  from: readonly number[],
  allowed: (cell: number) => boolean,
  start: Float64Array | null = null,
  origin: Int32Array | null = null,
): void {
  const queue = new FlatQueue<number>();
  for (const cell of from) {
    distances[cell] = start ? start[cell]! : 0;
    queue.push(cell, distances[cell]!);
    if (origin) origin[cell] = cell;
  }
  const straight = cellM;
  const across = cellM * Math.SQRT2;
  const steps = [
    [1, straight],
    [-1, straight],
    [columns, straight],
    [-columns, straight],
    [columns + 1, across],
    [columns - 1, across],
    [-columns + 1, across],
    [-columns - 1, across],
  ] as const;
  while (queue.length > 0) {
    const d = queue.peekValue()!;
    const cell = queue.pop()!;
    if (d > distances[cell]!) continue;
    for (const [step, length] of steps) {
      const next = cell + step;
      if (!allowed(next)) continue;
      const there = d + length;
      if (there >= distances[next]! - 1e-12) continue;
      distances[next] = there;
      if (origin) origin[next] = origin[cell]!;
      queue.push(next, there);
    }
  }
}
