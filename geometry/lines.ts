import { type Arc, fractionOnArc } from './arc.ts';
import { cellX, cellY, FINEST_CELL, type Grid, gridFor } from './grid.ts';
import type { Point } from './point.ts';
import { flattenSide, type Ring, type Side, sideOf } from './ring.ts';
import { weldRings } from './weld.ts';

/** What a piece of linework belongs to. */
export interface Source {
  readonly kind: 'slab' | 'cut' | 'void';
  readonly index: number;
}

/**
 * All linework as columns. Slot i holds a point and the straight piece that leaves it, which ends at the point of slot
 * `to[i]` (−1 where an open path ends). The slots of source s run from `first[s]` up to `first[s + 1]`, in order of travel.
 */
export interface Lines {
  readonly grid: Grid;
  readonly sources: readonly Source[];
  readonly first: readonly number[];
  /** True position about the grid's origin. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Whole cells about the grid's origin. */
  readonly cx: Int32Array;
  readonly cy: Int32Array;
  readonly to: Int32Array;
  readonly source: Int32Array;
  /** Which side of its source the piece is of. */
  readonly side: Int32Array;
  /** The circle the piece is a chord of, about the grid's origin; null where it is straight. */
  readonly arc: ReadonlyArray<Arc | null>;
}

/** Chord height below which an arc is flattened for topology; areas and lengths do not depend on it. */
const SAGITTA = 2 ** -11;

/** Points this near a circle lie on it, as a cut that ends on an arc does. */
const ON_ARC = FINEST_CELL / 4;

/** Lays out rings and open paths as slots on one grid. */
export function layOut(
  slabs: readonly Ring[],
  cuts: ReadonlyArray<readonly Point[]>,
  voids: readonly Ring[],
  weld = 0,
): Lines {
  const laid = new Layout();
  if (weld > 0) {
    weldRings(slabs, weld).forEach(({ ring, sides }, index) => {
      laid.add({ kind: 'slab', index }, ring, true, sides);
    });
  } else {
    slabs.forEach((ring, index) => {
      laid.add({ kind: 'slab', index }, ring, true);
    });
  }
  cuts.forEach((path, index) => {
    laid.add({ kind: 'cut', index }, path, false);
  });
  voids.forEach((ring, index) => {
    laid.add({ kind: 'void', index }, ring, true);
  });
  return laid.finish();
}

/** An outline or path that is to be laid out. */
interface Strand {
  readonly source: Source;
  readonly ring: Ring;
  readonly closed: boolean;
  /** What each side is called; its own number where null. */
  readonly names: readonly number[] | null;
}

interface Chords {
  readonly arc: Arc;
  readonly points: readonly Point[];
}

class Layout {
  private readonly strands: Strand[] = [];
  private hasArcs = false;
  private points = 0;

  add(source: Source, ring: Ring, closed: boolean, names: readonly number[] | null = null): void {
    this.strands.push({ source, ring, closed, names });
    this.points += ring.length;
    if (closed && !this.hasArcs) this.hasArcs = ring.some((v) => v.via);
  }

  finish(): Lines {
    const chords = this.hasArcs ? this.flattened() : null;
    let n = this.points;
    if (chords) for (const c of chords.values()) n += c.points.length - 1;
    const x = new Float64Array(n);
    const y = new Float64Array(n);
    const to = new Int32Array(n);
    const source = new Int32Array(n);
    const side = new Int32Array(n);
    const arcs: Array<Arc | null> | null = chords && new Array(n).fill(null);
    const first: number[] = [];
    let i = 0;
    let corner = 0;
    const put = (p: Point, s: number, k: number) => {
      x[i] = p.x;
      y[i] = p.y;
      to[i] = i + 1;
      source[i] = s;
      side[i] = k;
      i++;
    };
    this.strands.forEach(({ ring, closed, names }, s) => {
      const start = i;
      first.push(start);
      for (let k = 0; k < ring.length; k++) {
        const a = ring[k]!;
        const name = !closed && k === ring.length - 1 ? -1 : names ? names[k]! : k;
        put(a, s, name);
        const along = chords?.get(corner++);
        if (!along) continue;
        arcs![i - 1] = along.arc;
        for (let c = 0; c + 1 < along.points.length; c++) {
          put(along.points[c]!, s, name);
          arcs![i - 1] = along.arc;
        }
      }
      if (i > start) to[i - 1] = closed ? start : -1;
    });
    first.push(i);
    const sources = this.strands.map((strand) => strand.source);
    return { sources, first, to, source, side, ...onGrid(x, y, arcs) };
  }

  /** The chords of each side that is an arc, by the number of its corner; the last of their points is where it ends. */
  private flattened(): Map<number, Chords> {
    const chords = new Map<number, Chords>();
    const ends = this.strands.flatMap(({ ring }) => ring as readonly Point[]);
    let corner = 0;
    for (const { ring, closed } of this.strands) {
      ring.forEach((a, k) => {
        const line = closed && a.via ? sideOf(ring, k) : null;
        const points = line?.arc && flattenSide(line, SAGITTA, meetings(line, ends));
        if (points) chords.set(corner, { arc: line.arc!, points });
        corner++;
      });
    }
    return chords;
  }
}

/** Takes true positions about the grid's origin, in place, and finds their cells. */
function onGrid(
  x: Float64Array,
  y: Float64Array,
  arcs: ReadonlyArray<Arc | null> | null,
): Pick<Lines, 'grid' | 'x' | 'y' | 'cx' | 'cy' | 'arc'> {
  const grid = gridFor(x, y);
  const n = x.length;
  const cx = new Int32Array(n);
  const cy = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    cx[i] = cellX(grid, x[i]!);
    cy[i] = cellY(grid, y[i]!);
    x[i]! -= grid.originX;
    y[i]! -= grid.originY;
  }
  let last: Arc | null = null;
  let moved: Arc | null = null;
  const arc =
    arcs?.map((a) => {
      if (!a) return null;
      // The chords of one side share their circle.
      if (a !== last) {
        moved = { ...a, centre: { x: a.centre.x - grid.originX, y: a.centre.y - grid.originY } };
        last = a;
      }
      return moved;
    }) ?? new Array<null>(n).fill(null);
  return { grid, x, y, cx, cy, arc };
}

/** Fractions along an arc at which other lines end on it: its chords must meet there too. */
function meetings(line: Side, ends: readonly Point[]): number[] {
  const { arc } = line;
  if (!arc) return [];
  const fractions = new Set<number>();
  const margin = ON_ARC / (Math.abs(arc.sweep) * arc.radius);
  for (const p of ends) {
    const dx = p.x - arc.centre.x;
    const dy = p.y - arc.centre.y;
    if (Math.abs(Math.sqrt(dx * dx + dy * dy) - arc.radius) > ON_ARC) continue;
    const t = fractionOnArc(arc, p);
    if (t > margin && t < 1 - margin) fractions.add(t);
  }
  return [...fractions];
}
