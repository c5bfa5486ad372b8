import { distance, type Point } from './point.ts';
import { fractionOnSide, pointOnSide, type Ring, sidesOf } from './ring.ts';

/** A place on an outline. */
export interface OnSide {
  readonly side: number;
  /** Fraction along the side, 0…1. */
  readonly t: number;
  readonly point: Point;
  readonly distance: number;
}

/** The nearest place on any side of the ring; null for an empty ring. */
export function nearestOnRing(ring: Ring, p: Point): OnSide | null {
  let best: OnSide | null = null;
  sidesOf(ring).forEach((line, side) => {
    const t = fractionOnSide(line, p);
    const point = pointOnSide(line, t);
    const d = distance(p, point);
    if (!best || d < best.distance) best = { side, t, point, distance: d };
  });
  return best;
}

/** Distance from p to the segment a–b. */
export const distanceToSegment = (p: Point, a: Point, b: Point): number =>
  distance(p, pointOnSide({ a, b, arc: null }, fractionOnSide({ a, b, arc: null }, p)));
