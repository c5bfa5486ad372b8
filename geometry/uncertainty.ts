import { type Arc, arcLength, arcThrough } from './arc.ts';
import type { Part } from './edge-measures.ts';
import type { Plan, Stretch, Zone } from './plan.ts';
import { distance, type Point } from './point.ts';
import { sideOf } from './ring.ts';

/** A point that a plan was drawn with. */
export interface PlanPoint {
  readonly at: Point;
  readonly kind: 'slab' | 'cut' | 'void';
  /** Number of the slab, cut or void in the plan, and of the vertex in it. */
  readonly index: number;
  readonly vertex: number;
  /** Whether it is the third point of the arc that leaves the vertex. */
  readonly via: boolean;
}

/** How far off the points of a plan may be. Square of the unit of the coordinates. */
export interface PointErrors {
  /** Variance in x, covariance, variance in y of a point by itself, independent of all others. */
  readonly own: (p: PlanPoint) => readonly [number, number, number];
  /** What moves points together: parameters with a covariance, and how x and y of a point change with each. */
  readonly shared: {
    readonly covariance: readonly (readonly number[])[];
    /** Slopes of x and of y of a point by each parameter. */
    readonly slopes: (p: PlanPoint) => readonly [readonly number[], readonly number[]];
  } | null;
}

/** Points that err alike in x and y, each by itself, by what they belong to. */
export const evenErrors = (deviation: Readonly<Record<PlanPoint['kind'], number>>): PointErrors => ({
  own: ({ kind }) => [deviation[kind] ** 2, 0, deviation[kind] ** 2],
  shared: null,
});

/** Standard deviation of a result from points by themselves, and from what moves them together. */
export interface Deviations {
  readonly own: number;
  readonly shared: number;
}

/** How fast a result changes with each point of the plan: its partial derivatives by x and y. */
type Gradient = Map<string, { x: number; y: number; readonly point: PlanPoint }>;

/**
 * Standard deviation of the summed net area of zones, from that of the points they were drawn with: first order, in
 * closed form, dA = ∮ (δ·n) ds with δ spread over each side as its ends (and the third point of an arc) move it.
 * A cut between two of the zones cancels. Square of the unit of the coordinates.
 * Source: law of propagation of uncertainty for uncorrelated inputs, JCGM 100:2008 5.1.2.
 */
export function areaDeviation(plan: Plan, zones: readonly Zone[], errors: PointErrors): Deviations {
  const gradient: Gradient = new Map();
  for (const zone of zones) {
    for (const stretch of zone.stretches) {
      for (const part of stretch.parts) addAreaTerms(gradient, placeOf(plan, zone, stretch, part), part);
    }
  }
  return deviationsOf(gradient, errors);
}

/** The same of the summed length of stretches of one zone. Unit of the coordinates. */
export function lengthDeviation(
  plan: Plan,
  zone: Zone,
  stretches: readonly Stretch[],
  errors: PointErrors,
): Deviations {
  const gradient: Gradient = new Map();
  for (const stretch of stretches) {
    for (const part of stretch.parts)
      addLengthTerms(gradient, placeOf(plan, zone, stretch, part), part.length);
  }
  return deviationsOf(gradient, errors);
}

/** A side with the names of the points that hold it. */
interface Place {
  readonly kind: PlanPoint['kind'];
  readonly index: number;
  /** The vertex that the side leaves, and the one it comes to. */
  readonly from: number;
  readonly to: number;
  readonly a: Point;
  readonly b: Point;
  readonly via: Point | null;
  readonly arc: Arc | null;
}

function placeOf(plan: Plan, zone: Zone, { cause }: Stretch, { side }: Part): Place {
  const kind = cause.kind === 'side' ? 'slab' : cause.kind;
  const index = cause.kind === 'cut' ? cause.cut : cause.kind === 'void' ? cause.void : zone.slab;
  if (kind === 'cut') {
    const { path } = plan.cuts[index]!;
    return {
      kind,
      index,
      from: side,
      to: side + 1,
      a: path[side]!,
      b: path[side + 1]!,
      via: null,
      arc: null,
    };
  }
  const ring = (kind === 'slab' ? plan.slabs : plan.voids)[index]!;
  const to = (side + 1) % ring.length;
  return { kind, index, from: side, to, ...sideOf(ring, side), via: ring[side]!.via ?? null };
}

function addAreaTerms(gradient: Gradient, place: Place, { moments: [m0, m1, m2] }: Part): void {
  const { a, b, via, arc } = place;
  if (arc && via) {
    // A small change of the circle moves it outward by α + β cos θ + γ sin θ; three points fix the three.
    const outward = Math.sign(arc.sweep);
    const ends = [a, via, b].map((p) => Math.atan2(p.y - arc.centre.y, p.x - arc.centre.x));
    const inverse = invert3(ends.map((t) => [1, Math.cos(t), Math.sin(t)]));
    if (!inverse) return;
    (['a', 'via', 'b'] as const).forEach((end, k) => {
      const g = outward * (m0 * inverse[0]![k]! + m1 * inverse[1]![k]! + m2 * inverse[2]![k]!);
      add(gradient, place, end, g * Math.cos(ends[k]!), g * Math.sin(ends[k]!));
    });
    return;
  }
  const d = distance(a, b);
  if (d === 0) return;
  const nx = (b.y - a.y) / d;
  const ny = -(b.x - a.x) / d;
  add(gradient, place, 'a', nx * (m0 - m1), ny * (m0 - m1));
  add(gradient, place, 'b', nx * m1, ny * m1);
}

function addLengthTerms(gradient: Gradient, place: Place, length: number): void {
  const { a, b, via, arc } = place;
  if (arc && via) {
    const share = length / arcLength(arc);
    const h = 1e-6 * arc.radius;
    const points = { a, via, b };
    for (const end of ['a', 'via', 'b'] as const) {
      const slope = (dx: number, dy: number): number => {
        const at = (s: number) => {
          const moved = { ...points, [end]: { x: points[end].x + s * dx, y: points[end].y + s * dy } };
          const turned = arcThrough(moved.a, moved.via, moved.b);
          return turned ? arcLength(turned) : distance(moved.a, moved.b);
        };
        return (at(h) - at(-h)) / (2 * h);
      };
      add(gradient, place, end, share * slope(1, 0), share * slope(0, 1));
    }
    return;
  }
  const d = distance(a, b);
  if (d === 0) return;
  const share = length / d;
  const ux = (share * (b.x - a.x)) / d;
  const uy = (share * (b.y - a.y)) / d;
  add(gradient, place, 'a', -ux, -uy);
  add(gradient, place, 'b', ux, uy);
}

function add(gradient: Gradient, place: Place, end: 'a' | 'b' | 'via', x: number, y: number): void {
  const { kind, index, from, to } = place;
  const vertex = end === 'b' ? to : from;
  const via = end === 'via';
  const key = `${kind} ${index} ${vertex} ${via}`;
  const known = gradient.get(key);
  if (known) {
    known.x += x;
    known.y += y;
  } else gradient.set(key, { x, y, point: { at: place[end]!, kind, index, vertex, via } });
}

function deviationsOf(gradient: Gradient, { own, shared }: PointErrors): Deviations {
  let variance = 0;
  const slopes = shared ? new Array<number>(shared.covariance.length).fill(0) : [];
  for (const { x, y, point } of gradient.values()) {
    const [xx, xy, yy] = own(point);
    variance += x * x * xx + 2 * x * y * xy + y * y * yy;
    if (!shared) continue;
    const [sx, sy] = shared.slopes(point);
    for (let i = 0; i < slopes.length; i++) slopes[i]! += x * sx[i]! + y * sy[i]!;
  }
  let together = 0;
  slopes.forEach((a, i) => {
    slopes.forEach((b, j) => {
      together += a * b * shared!.covariance[i]![j]!;
    });
  });
  return { own: Math.sqrt(variance), shared: Math.sqrt(Math.max(0, together)) };
}

/** Inverse of a 3 × 3 matrix by its cofactors; null when there is none. */
function invert3(m: readonly (readonly number[])[]): number[][] | null {
  const [a, b, c, d, e, f, g, h, i] = m.flat();
  const A = e! * i! - f! * h!;
  const B = f! * g! - d! * i!;
  const C = d! * h! - e! * g!;
  const det = a! * A + b! * B + c! * C;
  if (Math.abs(det) < 1e-12) return null;
  return [
    [A / det, (c! * h! - b! * i!) / det, (b! * f! - c! * e!) / det],
    [B / det, (a! * i! - c! * g!) / det, (c! * d! - a! * f!) / det],
    [C / det, (b! * g! - a! * h!) / det, (a! * e! - b! * d!) / det],
  ];
}
