import { distance, type Point } from './point.ts';

/** A move of the plane that keeps shapes: p ↦ (a·x − s·b·y + e, b·x + s·a·y + f), with s = −1 when it mirrors. */
export interface Similarity {
  readonly a: number;
  readonly b: number;
  readonly e: number;
  readonly f: number;
  readonly mirror: boolean;
}

/** Applies a similarity. */
export function transform(m: Similarity, p: Point): Point {
  const y = m.mirror ? -p.y : p.y;
  return { x: m.a * p.x - m.b * y + m.e, y: m.b * p.x + m.a * y + m.f };
}

/** Takes a transformed point back. Undefined (NaN) for a similarity of size zero. */
export function untransform(m: Similarity, p: Point): Point {
  const d = m.a * m.a + m.b * m.b;
  const x = (m.a * (p.x - m.e) + m.b * (p.y - m.f)) / d;
  const y = (m.a * (p.y - m.f) - m.b * (p.x - m.e)) / d;
  return { x, y: m.mirror ? -y : y };
}

/** How much lengths grow. */
export const scaleOf = (m: Similarity): number => Math.hypot(m.a, m.b);

/** The point that lies to c–d as p lies to a–b: carries an arc's third point along when its ends move. Null when a = b. */
export function carryAlong(a: Point, b: Point, p: Point, c: Point, d: Point): Point | null {
  const length = distance(a, b);
  if (length === 0) return null;
  const ux = (b.x - a.x) / length;
  const uy = (b.y - a.y) / length;
  const u = ((p.x - a.x) * ux + (p.y - a.y) * uy) / length;
  const v = ((p.y - a.y) * ux - (p.x - a.x) * uy) / length;
  return { x: c.x + (d.x - c.x) * u - (d.y - c.y) * v, y: c.y + (d.y - c.y) * u + (d.x - c.x) * v };
}
