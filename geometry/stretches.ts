import { causeOf, isPlainSide, namesSide, onSide } from './causes.ts';
import { type Columns, scratch } from './columns.ts';
import type { Cover } from './cover.ts';
import type { EdgeMeasures, EdgeShapes, Part } from './edge-measures.ts';
import { slotOf } from './linework.ts';
import { once } from './once.ts';
import type { Cause, Stretch } from './plan.ts';
import type { Point } from './point.ts';
import { mapRows, type Rows } from './rows.ts';
import { sortShort } from './sort-short.ts';

/** The boundary of a zone's net area, as rings of half-edges with the zone on the left. */
export interface Boundary {
  readonly cover: Cover;
  readonly zone: number;
  readonly shapes: EdgeShapes;
  readonly rings: Rows;
}

/** Lengths by cause, in order of their ranks. */
export interface Lengths {
  readonly ranks: Float64Array;
  readonly lengths: Float64Array;
}

/** How long the boundary is for each cause. */
export function lengthsByCause(boundary: Boundary, measures: EdgeMeasures): Lengths {
  const { cover, zone } = boundary;
  const { plan, work } = cover;
  const { items } = boundary.rings;
  const mark = scratch.mark();
  const { ranks, uses } = attributed(boundary);
  const tally = new Tally(plan.slabs[cover.zones[zone]!.slab]!.length);
  for (let n = 0; n < items.length; n++) {
    const e = items[n]! >> 1;
    const r = ranks[n]!;
    const last = work.lastSlot[e]!;
    if (!namesSide(r) || last < 0) {
      tally.add(onSide(r, work.lines.side[slotOf(uses[n]!)]!), measures.length[e]!);
    } else {
      for (let slot = slotOf(uses[n]!); ; slot = work.lines.to[slot]!) {
        tally.add(onSide(r, work.lines.side[slot]!), measures.slotLength[slot]!);
        if (slot === last) break;
      }
    }
  }
  const lengths = tally.sums(work.lines.columns);
  scratch.release(mark);
  return lengths;
}

/** The same as stretches, which find out where they run when somebody asks. */
export function stretchesOf(boundary: Boundary, { ranks, lengths }: Lengths): Stretch[] {
  const courses = once(() => coursesOf(boundary));
  return Array.from(ranks, (r, i) => new MeasuredStretch(causeOf(r), lengths[i]!, r, courses));
}

/** Sums up lengths by rank: those of plain sides in a column, as most are, others in lists. */
class Tally {
  private readonly sides: Float64Array;
  private readonly ranks: number[] = [];
  private readonly lengths: number[] = [];
  private last = -1;

  constructor(sides: number) {
    this.sides = scratch.float64(sides).fill(0);
  }

  add(r: number, length: number): void {
    if (isPlainSide(r)) {
      this.sides[r]! += length;
      return;
    }
    if (this.ranks[this.last] !== r) this.last = this.placeOf(r);
    this.lengths[this.last]! += length;
  }

  private placeOf(r: number): number {
    const known = this.ranks.indexOf(r);
    if (known >= 0) return known;
    this.lengths.push(0);
    return this.ranks.push(r) - 1;
  }

  /** In the order of the ranks, in columns of their own. */
  sums(columns: Columns): Lengths {
    const { sides } = this;
    let count = this.ranks.length;
    for (let side = 0; side < sides.length; side++) if (sides[side]! > 0) count++;
    const ranks = columns.float64(count);
    const lengths = columns.float64(count);
    let n = 0;
    for (let side = 0; side < sides.length; side++) {
      if (!(sides[side]! > 0)) continue;
      ranks[n] = side;
      lengths[n++] = sides[side]!;
    }
    const order = sortShort([...this.ranks.keys()], (i, j) => this.ranks[i]! - this.ranks[j]!);
    for (const i of order) {
      ranks[n] = this.ranks[i]!;
      lengths[n++] = this.lengths[i]!;
    }
    return { ranks, lengths };
  }
}

/** Why each half-edge of the rings is there, in scratch columns. */
function attributed({ cover, zone, rings }: Boundary): { ranks: Float64Array; uses: Int32Array } {
  const ranks = scratch.float64(rings.items.length);
  const uses = scratch.int32(rings.items.length);
  cover.attribute(rings.items, zone, ranks, uses);
  return { ranks, uses };
}

/** Where each stretch runs. */
function coursesOf(boundary: Boundary): Map<number, Course> {
  const mark = scratch.mark();
  const { ranks, uses } = attributed(boundary);
  const byRank = new Map<number, Course>();
  let n = 0;
  for (const ring of mapRows(boundary.rings, (row) => row)) {
    let previous: Course | null = null;
    for (const h of ring) {
      for (const { part, points } of boundary.shapes.pieces(h, uses[n]!)) {
        const r = onSide(ranks[n]!, part.side);
        let course = byRank.get(r);
        if (!course) {
          course = { runs: [], parts: new Map() };
          byRank.set(r, course);
        }
        addPart(course.parts, part);
        if (course !== previous) course.runs.push([points[0]!]);
        const run = course.runs[course.runs.length - 1]!;
        for (let i = 1; i < points.length; i++) run.push(points[i]!);
        previous = course;
      }
      n++;
    }
  }
  scratch.release(mark);
  return byRank;
}

interface Course {
  readonly runs: Point[][];
  readonly parts: Map<number, Part>;
}

class MeasuredStretch implements Stretch {
  constructor(
    readonly cause: Cause,
    readonly length: number,
    private readonly rank: number,
    private readonly courses: () => ReadonlyMap<number, Course>,
  ) {}

  get runs(): readonly Point[][] {
    return this.courses().get(this.rank)!.runs;
  }

  get parts(): readonly Part[] {
    return [...this.courses().get(this.rank)!.parts.values()];
  }
}

function addPart(parts: Map<number, Part>, p: Part): void {
  const known = parts.get(p.side);
  const [m, n] = [known?.moments, p.moments];
  parts.set(
    p.side,
    known && m
      ? { side: p.side, length: known.length + p.length, moments: [m[0] + n[0], m[1] + n[1], m[2] + n[2]] }
      : p,
  );
}
