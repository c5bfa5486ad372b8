import type { Point } from '../../../geometry/index.ts';

/** Half of the passage a painter needs. */
export const CLEARANCE_M = 0.25;

/** A floor as square cells, laid along its longest way out. Cells are numbered row by row. */
export interface Floor {
  readonly cellM: number;
  readonly columns: number;
  readonly rows: number;
  /** 1 where the cell's middle is to be coated. */
  readonly inside: Uint8Array;
  /** 1 there and on what is taken out: a pole reaches over a drain. */
  readonly ground: Uint8Array;
  /** 1 where somebody half a metre wide can stand, the ways out left open. */
  readonly standing: Uint8Array;
  /** Cells with room to stand that touch a way out. */
  readonly doors: readonly number[];
  readonly count: number;
  /** The middle of a cell, on the ground. */
  readonly middle: (cell: number) => Point;
  /** The cell that holds a place on the ground; -1 off the grid. */
  readonly cellAt: (p: Point) => number;
}

export type Segment = readonly [Point, Point];

/** Cells of at most a quarter metre and at least a tenth, some eight thousand of them. */
const cellSize = (areaM2: number): number => Math.min(0.25, Math.max(0.1, Math.sqrt(areaM2 / 8000)));

/**
 * Lays a grid over what is coated.
 * @param rings outlines on the ground, holes among them (even-odd), @param faces the same without what is taken out
 * @param exits sides that can be stepped over
 */
export function floorOf(
  rings: readonly (readonly Point[])[],
  faces: readonly (readonly Point[])[],
  exits: readonly Segment[],
  areaM2: number,
): Floor {
  const cellM = cellSize(areaM2);
  const [a, b] = longest(exits);
  const angle = Math.atan2(b.y - a.y, b.x - a.x);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turn = (p: Point): Point => ({ x: c * p.x + s * p.y, y: c * p.y - s * p.x });
  const back = (p: Point): Point => ({ x: c * p.x - s * p.y, y: s * p.x + c * p.y });
  const turned = rings.map((ring) => ring.map(turn));
  const ways = exits.map(([p, q]): Segment => [turn(p), turn(q)]);
  // A margin all round, so that what lies beyond a way out is on the grid.
  const margin = Math.ceil(CLEARANCE_M / cellM) + 2;
  const all = turned.flat();
  const x0 = Math.min(...all.map((p) => p.x)) - margin * cellM;
  const y0 = Math.min(...all.map((p) => p.y)) - margin * cellM;
  const columns = Math.ceil((Math.max(...all.map((p) => p.x)) - x0) / cellM) + margin;
  const rows = Math.ceil((Math.max(...all.map((p) => p.y)) - y0) / cellM) + margin;
  const inside = fill(turned, columns, rows, x0, y0, cellM);
  const whole = faces.map((ring) => ring.map(turn));
  const ground = fill(whole, columns, rows, x0, y0, cellM).map((is, cell) => is | inside[cell]!);
  const at = (cell: number): Point => ({
    x: x0 + ((cell % columns) + 0.5) * cellM,
    y: y0 + (Math.floor(cell / columns) + 0.5) * cellM,
  });
  const open = beyondExits(inside, ways, columns, rows, at, cellM);
  const standing = eroded(inside, open, columns, rows, cellM);
  const doors: number[] = [];
  let count = 0;
  for (let cell = 0; cell < inside.length; cell++) {
    if (!inside[cell]) continue;
    count++;
    if (standing[cell] && ways.some((w) => distance(at(cell), w) <= 1.2 * cellM)) doors.push(cell);
  }
  return {
    cellM,
    columns,
    rows,
    inside,
    ground,
    standing,
    doors,
    count,
    middle: (cell) => back(at(cell)),
    cellAt: (p) => {
      const q = turn(p);
      const [i, j] = [Math.floor((q.x - x0) / cellM), Math.floor((q.y - y0) / cellM)];
      return i < 0 || j < 0 || i >= columns || j >= rows ? -1 : j * columns + i;
    },
  };
}

const longest = (exits: readonly Segment[]): Segment =>
  exits.reduce((best, e) => (span(e) > span(best) ? e : best), exits[0]!);
const span = ([a, b]: Segment): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Distance from a point to a segment. */
export function distance(p: Point, [a, b]: Segment): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const d2 = dx * dx + dy * dy;
  const t = d2 > 0 ? Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / d2)) : 0;
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/** Even-odd fill, row by row. */
function fill(
  rings: readonly (readonly Point[])[],
  columns: number,
  rows: number,
  x0: number,
  y0: number,
  cellM: number,
): Uint8Array {
  const inside = new Uint8Array(columns * rows);
  for (let j = 0; j < rows; j++) {
    const y = y0 + (j + 0.5) * cellM;
    const crossings: number[] = [];
    for (const ring of rings) {
      for (let k = 0; k < ring.length; k++) {
        const p = ring[k]!;
        const q = ring[(k + 1) % ring.length]!;
        if (p.y <= y !== q.y <= y) crossings.push(p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x));
      }
    }
    crossings.sort((u, v) => u - v);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = Math.max(0, Math.ceil((crossings[k]! - x0) / cellM - 0.5));
      const to = Math.min(columns - 1, Math.ceil((crossings[k + 1]! - x0) / cellM - 0.5) - 1);
      for (let i = from; i <= to; i++) inside[j * columns + i] = 1;
    }
  }
  return inside;
}

/** Ground beyond a way out, as far as the clearance reaches: not coated, and not in the way. */
function beyondExits(
  inside: Uint8Array,
  ways: readonly Segment[],
  columns: number,
  rows: number,
  at: (cell: number) => Point,
  cellM: number,
): Uint8Array {
  const open = new Uint8Array(columns * rows);
  const reach = CLEARANCE_M + 1.5 * cellM;
  for (let cell = 0; cell < open.length; cell++) {
    if (!inside[cell] && ways.some((w) => distance(at(cell), w) <= reach)) open[cell] = 1;
  }
  return open;
}

/** Cells around which everything within the clearance is coated or beyond a way out. */
function eroded(
  inside: Uint8Array,
  open: Uint8Array,
  columns: number,
  rows: number,
  cellM: number,
): Uint8Array {
  const offsets: Array<readonly [number, number]> = [];
  const n = Math.floor(CLEARANCE_M / cellM + 0.5);
  for (let j = -n; j <= n; j++) {
    for (let i = -n; i <= n; i++) if (Math.hypot(i, j) * cellM <= CLEARANCE_M + 1e-9) offsets.push([i, j]);
  }
  const standing = new Uint8Array(columns * rows);
  for (let cell = 0; cell < inside.length; cell++) {
    if (!inside[cell]) continue;
    const [i, j] = [cell % columns, Math.floor(cell / columns)];
    const free = offsets.every(([di, dj]) => {
      const [u, v] = [i + di, j + dj];
      if (u < 0 || v < 0 || u >= columns || v >= rows) return false;
      const other = v * columns + u;
      return inside[other] === 1 || open[other] === 1;
    });
    if (free) standing[cell] = 1;
  }
  return standing;
}
