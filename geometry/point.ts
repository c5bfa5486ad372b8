/**
 * A point of the plane. The y axis points UP and turning from x to y is counter-clockwise, as on a
 * site plan; a caller whose pictures have y down mirrors them first. Unit: the caller's, everywhere the same.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Straight-line distance, in the unit of the coordinates. */
export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Twice the signed area of the triangle a, b, c: positive when c lies left of a→b. */
export const cross = (a: Point, b: Point, c: Point): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** The point a fraction t of the way from a to b (t may lie outside 0…1). */
export const lerp = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** Smallest upright box around the points; infinite and inverted when there are none. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The box around the points. */
export function boxOf(points: Iterable<Point>): Box {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const p of points) {
    if (p.x < minX) minX = p.x;
    if (p.x > maxX) maxX = p.x;
    if (p.y < minY) minY = p.y;
    if (p.y > maxY) maxY = p.y;
  }
  return { minX, minY, maxX, maxY };
}
