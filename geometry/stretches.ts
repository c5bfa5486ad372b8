import type { MeasuredEdge, Part } from './edge-measures.ts';
import type { Use } from './linework.ts';
import { once } from './once.ts';
import type { Cause, Stretch } from './plan.ts';
import type { Point } from './point.ts';

/** A zone's boundary as rings of half-edges with the zone on the left, and why each is there. */
export interface Boundary {
  readonly rings: readonly number[][];
  readonly edges: readonly MeasuredEdge[];
  /** How many sides the zone's slab has. */
  readonly sides: number;
  readonly causeOf: (halfEdge: number) => { readonly cause: Cause; readonly use: Use };
}

/** Lengths by cause at once; where the stretches run, side by side, only when somebody asks. */
export function gatherStretches(boundary: Boundary): Stretch[] {
  const { rings, edges, causeOf } = boundary;
  const sides = new Float64Array(boundary.sides);
  const others = new Map<number, { rank: number; cause: Cause; length: number }>();
  const add = (cause: Cause, length: number) => {
    const rank = rankOf(cause);
    const known = others.get(rank);
    if (known) known.length += length;
    else others.set(rank, { rank, cause, length });
  };
  const addSide = (side: number, length: number) => {
    sides[side]! += length;
  };
  for (const ring of rings) {
    for (const h of ring) {
      const { cause, use } = causeOf(h);
      const edge = edges[h >> 1]!;
      if (cause.kind === 'side') edge.sides(use, addSide);
      else if (cause.kind === 'slab') edge.sides(use, (side, length) => add(onSide(cause, side), length));
      else add(cause, edge.length);
    }
  }
  const courses = once(() => coursesOf(boundary));
  const stretches: Stretch[] = [];
  sides.forEach((length, side) => {
    if (length > 0) stretches.push(new MeasuredStretch({ kind: 'side', side }, length, side, courses));
  });
  const sorted = [...others.values()].sort((p, q) => p.rank - q.rank);
  for (const { rank, cause, length } of sorted) {
    stretches.push(new MeasuredStretch(cause, length, rank, courses));
  }
  return stretches;
}

/** Where each stretch runs. */
function coursesOf({ rings, edges, causeOf }: Boundary): Map<number, Course> {
  const byRank = new Map<number, Course>();
  for (const ring of rings) {
    let previous: Course | null = null;
    for (const h of ring) {
      const { cause, use } = causeOf(h);
      for (const { part, points } of edges[h >> 1]!.pieces(use, (h & 1) === 1)) {
        const rank = rankOf(onSide(cause, part.side));
        let course = byRank.get(rank);
        if (!course) {
          course = { runs: [], parts: new Map() };
          byRank.set(rank, course);
        }
        addPart(course.parts, part);
        if (course !== previous) course.runs.push([points[0]!]);
        const run = course.runs[course.runs.length - 1]!;
        for (let i = 1; i < points.length; i++) run.push(points[i]!);
        previous = course;
      }
    }
  }
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

/** A slab's outline is told apart by its sides; cuts and voids are not. */
const onSide = (cause: Cause, side: number): Cause =>
  cause.kind === 'side' || cause.kind === 'slab' ? (cause.side === side ? cause : { ...cause, side }) : cause;

/** One number for each cause; stretches come in this order. */
function rankOf(c: Cause): number {
  switch (c.kind) {
    case 'side':
      return c.side;
    case 'slab':
      return 1e15 + c.side * 1e7 + c.slab;
    case 'cut':
      return 2e15 + c.cut * 1e7 + c.zone;
    case 'void':
      return 3e15 + c.void;
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
