import { type Arc, arcLength, arcThrough } from './arc.ts';
import type { Part } from './edge-measures.ts';
import type { Plan, Stretch, Zone } from './plan.ts';
import { distance, type Point } from './point.ts';
import { sideOf } from './ring.ts';

/** Standard deviation of each coordinate of a point, independent of all others; by what the point belongs to. */
export interface PointDeviation {
  readonly slab: number;
  readonly cut: number;
  readonly void: number;
}

/** How fast a result changes with each point of the plan: its partial derivatives by x and y. */
type Gradient = Map<string, { x: number; y: number; readonly kind: keyof PointDeviation }>;

/**
 * Standard deviation of the summed net area of zones, from that of the points they were drawn with: first order, in
 * closed form, dA = ∮ (δ·n) ds with δ spread over each side as its ends (and the third point of an arc) move it.
 * A cut between two of the zones cancels. Square of the unit of the coordinates.
 * Source: law of propagation of uncertainty for uncorrelated inputs, JCGM 100:2008 5.1.2.
 */
export function areaDeviation(plan: Plan, zones: readonly Zone[], points: PointDeviation): number {
  const gradient: Gradient = new Map();
  for (const zone of zones) {
    for (const stretch of zone.stretches) {
      for (const part of stretch.parts) addAreaTerms(gradient, placeOf(plan, zone, stretch, part), part);
    }
  }
  return root(gradient, points);
}

/** The same of the summed length of stretches of one zone. Unit of the coordinates. */
export function lengthDeviation(
  plan: Plan,
  zone: Zone,
  stretches: readonly Stretch[],
  points: PointDeviation,
): number {
  const gradient: Gradient = new Map();
  for (const stretch of stretches) {
    for (const part of stretch.parts)
      addLengthTerms(gradient, placeOf(plan, zone, stretch, part), part.length);
  }
  return root(gradient, points);
}

/** A side with the names of the points that hold it. */
interface Place {
  readonly kind: keyof PointDeviation;
  readonly a: Point;
  readonly b: Point;
  readonly via: Point | null;
  readonly arc: Arc | null;
  readonly name: (end: 'a' | 'b' | 'via') => string;
}

function placeOf(plan: Plan, zone: Zone, { cause }: Stretch, { side }: Part): Place {
  const kind = cause.kind === 'side' ? 'slab' : cause.kind;
  const index = cause.kind === 'cut' ? cause.cut : cause.kind === 'void' ? cause.void : zone.slab;
  if (kind === 'cut') {
    const { path } = plan.cuts[index]!;
    const name = (end: string) => `cut ${index} ${end === 'a' ? side : side + 1}`;
    return { kind, a: path[side]!, b: path[side + 1]!, via: null, arc: null, name };
  }
  const ring = (kind === 'slab' ? plan.slabs : plan.voids)[index]!;
  const next = (side + 1) % ring.length;
  const name = (end: string) => `${kind} ${index} ${end === 'a' ? side : end === 'b' ? next : `via ${side}`}`;
  return { kind, ...sideOf(ring, side), via: ring[side]!.via ?? null, name };
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

function add(gradient: Gradient, { kind, name }: Place, end: 'a' | 'b' | 'via', x: number, y: number): void {
  const known = gradient.get(name(end));
  if (known) {
    known.x += x;
    known.y += y;
  } else gradient.set(name(end), { x, y, kind });
}

function root(gradient: Gradient, points: PointDeviation): number {
  let variance = 0;
  for (const { x, y, kind } of gradient.values()) variance += (x * x + y * y) * points[kind] ** 2;
  return Math.sqrt(variance);
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
