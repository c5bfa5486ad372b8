import { type Arc, fractionOnArc } from './arc.ts';
import { Columns } from './columns.ts';
import { FINEST_CELL, type Grid, gridFor } from './grid.ts';
import type { Point } from './point.ts';
import { flattenSide, type Ring, type Side, sideOf } from './ring.ts';
import { Sources } from './sources.ts';
import type { Straight } from './straight.ts';
import { weldRings } from './weld.ts';

/**
 * All linework as columns. Slot i holds a point and the straight piece that leaves it, which ends at the point of slot
 * `to[i]` (−1 where an open path ends). The slots of source s run from `first[s]` up to `first[s + 1]`, in order of travel.
 */
export interface Lines {
  readonly grid: Grid;
  /** Has room for what is made of the lines as a rule: they live as long. */
  readonly columns: Columns;
  readonly sources: Sources;
  readonly first: Int32Array;
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
  /** The circle each piece is a chord of, about the grid's origin; null for a straight piece, and where all are. */
  readonly arcs: ReadonlyArray<Arc | null> | null;
}

/** The circle a piece is a chord of; null where it is straight. */
export const arcAt = ({ arcs }: Lines, slot: number): Arc | null => (arcs ? arcs[slot]! : null);

/** Chord height below which an arc is flattened for topology; areas and lengths do not depend on it. */
const SAGITTA = 2 ** -11;

/** Points this near a circle lie on it, as a cut that ends on an arc does. */
const ON_ARC = FINEST_CELL / 4;

/**
 * Lays out rings and open paths as slots on one grid.
 * @param straight what is known as columns, by source
 */
export function layOut(
  slabs: readonly Ring[],
  cuts: ReadonlyArray<readonly Point[]>,
  voids: readonly Ring[],
  weld: number,
  straight: readonly (Straight | null)[],
): Lines {
  const laid = new Layout(new Sources(slabs.length, cuts.length, voids.length));
  let s = 0;
  if (weld > 0) for (const { ring, sides } of weldRings(slabs, weld)) laid.add(ring, true, null, sides);
  else for (const ring of slabs) laid.add(ring, true, straight[s++]);
  s = slabs.length;
  for (const path of cuts) laid.add(path, false, straight[s++]);
  for (const ring of voids) laid.add(ring, true, straight[s++]);
  return laid.finish();
}

/** An outline or path that is to be laid out. */
interface Strand {
  readonly ring: Ring;
  readonly straight: Straight | null;
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

  constructor(private readonly sources: Sources) {}

  /** Adds the next of the sources, in their order. */
  add(
    ring: Ring,
    closed: boolean,
    straight: Straight | null = null,
    names: readonly number[] | null = null,
  ): void {
    this.strands.push({ ring, straight, closed, names });
    this.points += ring.length;
    if (closed && !straight && !this.hasArcs) this.hasArcs = ring.some((v) => v.via);
  }

  finish(): Lines {
    const chords = this.hasArcs ? this.flattened() : null;
    let n = this.points;
    if (chords) for (const c of chords.values()) n += c.points.length - 1;
    const strands = this.strands.length;
    const columns = new Columns(n * 76 + strands * 16 + 256);
    const x = columns.float64(n);
    const y = columns.float64(n);
    const cx = columns.int32(n);
    const cy = columns.int32(n);
    const to = columns.int32(n);
    const source = columns.int32(n);
    const side = columns.int32(n);
    const first = columns.int32(strands + 1);
    const arcs: Array<Arc | null> | null = chords && new Array(n).fill(null);
    let i = 0;
    let corner = 0;
    for (let s = 0; s < strands; s++) {
      const { ring, straight, closed, names } = this.strands[s]!;
      first[s] = i;
      if (straight && !chords) {
        for (let k = 0; k < straight.length; k += 2, i++) {
          x[i] = straight[k]!;
          y[i] = straight[k + 1]!;
          side[i] = k >> 1;
        }
      } else {
        for (let k = 0; k < ring.length; k++) {
          const along = chords?.get(corner++);
          let p: Point = ring[k]!;
          for (let c = 0; ; c++) {
            x[i] = p.x;
            y[i] = p.y;
            side[i] = names ? names[k]! : k;
            if (along) arcs![i] = along.arc;
            i++;
            if (!along || c + 1 >= along.points.length) break;
            p = along.points[c]!;
          }
        }
      }
      if (i === first[s]) continue;
      source.fill(s, first[s], i);
      for (let k = first[s]!; k < i; k++) to[k] = k + 1;
      to[i - 1] = closed ? first[s]! : -1;
      if (!closed) side[i - 1] = -1;
    }
    first[strands] = i;
    const grid = gridFor(x, y);
    const { originX, originY } = grid;
    // Exact, as a cell is a power of two.
    const perUnit = 1 / grid.cell;
    for (let k = 0; k < n; k++) {
      x[k]! -= originX;
      y[k]! -= originY;
      cx[k] = Math.round(x[k]! * perUnit);
      cy[k] = Math.round(y[k]! * perUnit);
    }
    return {
      grid,
      columns,
      sources: this.sources,
      first,
      x,
      y,
      cx,
      cy,
      to,
      source,
      side,
      arcs: arcs && aboutOrigin(arcs, grid),
    };
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

/** The same circles about the grid's origin. */
function aboutOrigin(arcs: ReadonlyArray<Arc | null>, { originX, originY }: Grid): Array<Arc | null> {
  let last: Arc | null = null;
  let moved: Arc | null = null;
  return arcs.map((a) => {
    if (!a) return null;
    // The chords of one side share their circle.
    if (a !== last) {
      moved = { ...a, centre: { x: a.centre.x - originX, y: a.centre.y - originY } };
      last = a;
    }
    return moved;
  });
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
