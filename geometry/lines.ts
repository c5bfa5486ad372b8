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
  readonly cx: Float64Array;
  readonly cy: Float64Array;
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
  weldRings(slabs, weld).forEach(({ ring, sides }, index) => {
    laid.add({ kind: 'slab', index }, ring, true, sides);
  });
  cuts.forEach((path, index) => {
    laid.add({ kind: 'cut', index }, path, false);
  });
  voids.forEach((ring, index) => {
    laid.add({ kind: 'void', index }, ring, true);
  });
  return laid.finish();
}

class Layout {
  private readonly sources: Source[] = [];
  private readonly rings: Array<{
    readonly ring: Ring;
    readonly closed: boolean;
    readonly names: readonly number[] | null;
  }> = [];
  private hasArcs = false;

  /** @param names what each side is called; its own number unless said otherwise */
  add(source: Source, ring: Ring, closed: boolean, names: readonly number[] | null = null): void {
    this.sources.push(source);
    this.rings.push({ ring, closed, names });
    if (closed && !this.hasArcs) this.hasArcs = ring.some((v) => v.via);
  }

  finish(): Lines {
    const x: number[] = [];
    const y: number[] = [];
    const to: number[] = [];
    const source: number[] = [];
    const side: number[] = [];
    const arcs: Array<Arc | null> = [];
    const first: number[] = [];
    const ends = this.hasArcs ? this.rings.flatMap(({ ring }) => ring as readonly Point[]) : [];
    const put = (p: Point, s: number, k: number, arc: Arc | null) => {
      to.push(x.length + 1);
      x.push(p.x);
      y.push(p.y);
      source.push(s);
      side.push(k);
      arcs.push(arc);
    };
    this.rings.forEach(({ ring, closed, names }, s) => {
      const start = x.length;
      first.push(start);
      const sides = closed ? ring.length : ring.length - 1;
      for (let k = 0; k < sides; k++) {
        const a = ring[k]!;
        const line = closed && a.via ? sideOf(ring, k) : null;
        const name = names ? names[k]! : k;
        put(a, s, name, line?.arc ?? null);
        if (!line?.arc) continue;
        const points = flattenSide(line, SAGITTA, meetings(line, ends));
        for (let i = 0; i + 1 < points.length; i++) put(points[i]!, s, name, line.arc);
      }
      if (!closed && ring.length > 0) put(ring[ring.length - 1]!, s, -1, null);
      if (x.length > start) to[x.length - 1] = closed ? start : -1;
    });
    first.push(x.length);
    return {
      sources: this.sources,
      first,
      to: Int32Array.from(to),
      source: Int32Array.from(source),
      side: Int32Array.from(side),
      ...onGrid(x, y, arcs),
    };
  }
}

function onGrid(
  xs: readonly number[],
  ys: readonly number[],
  arcs: ReadonlyArray<Arc | null>,
): Pick<Lines, 'grid' | 'x' | 'y' | 'cx' | 'cy' | 'arc'> {
  const grid = gridFor(xs, ys);
  const n = xs.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const cx = new Float64Array(n);
  const cy = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    cx[i] = cellX(grid, xs[i]!);
    cy[i] = cellY(grid, ys[i]!);
    x[i] = xs[i]! - grid.originX;
    y[i] = ys[i]! - grid.originY;
  }
  let last: Arc | null = null;
  let moved: Arc | null = null;
  const arc = arcs.map((a) => {
    if (!a) return null;
    // The chords of one side share their circle.
    if (a !== last) {
      moved = { ...a, centre: { x: a.centre.x - grid.originX, y: a.centre.y - grid.originY } };
      last = a;
    }
    return moved;
  });
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
