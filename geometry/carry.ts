import { distance, type Point } from './point.ts';

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
