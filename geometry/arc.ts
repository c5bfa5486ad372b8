import { distance, type Point } from './point.ts';

/** A circular arc. Angles in radians, counter-clockwise positive; `sweep` carries the direction of travel. */
export interface Arc {
  readonly centre: Point;
  readonly radius: number;
  readonly start: number;
  readonly sweep: number;
}

/** A sagitta below this share of the chord is straight: the circle's centre would be lost to rounding. */
const FLAT = 1e-9;

/**
 * The arc from a to b through a third point on it, or null when the three lie on a line (or coincide),
 * so that the side is straight.
 */
export function arcThrough(a: Point, via: Point, b: Point): Arc | null {
  const bx = b.x - a.x;
  const by = b.y - a.y;
  const vx = via.x - a.x;
  const vy = via.y - a.y;
  const turn = bx * vy - by * vx;
  const chord2 = bx * bx + by * by;
  const via2 = vx * vx + vy * vy;
  if (Math.abs(turn) <= FLAT * Math.max(chord2, via2)) return null;
  const d = 2 * turn;
  const ux = (vy * chord2 - by * via2) / d;
  const uy = (bx * via2 - vx * chord2) / d;
  const centre = { x: a.x + ux, y: a.y + uy };
  const start = Math.atan2(-uy, -ux);
  const end = Math.atan2(b.y - centre.y, b.x - centre.x);
  // The via point right of the chord means the arc turns counter-clockwise from a to b.
  const ccw = turn < 0;
  let sweep = end - start;
  if (ccw && sweep <= 0) sweep += 2 * Math.PI;
  if (!ccw && sweep >= 0) sweep -= 2 * Math.PI;
  return { centre, radius: Math.hypot(ux, uy), start, sweep };
}

/** The arc whose end is `bulge` = tan(sweep/4) from its start (group code 42 of drawing exchange files); null when straight. */
export function arcFromBulge(a: Point, b: Point, bulge: number): Arc | null {
  if (bulge === 0 || distance(a, b) === 0) return null;
  const via = {
    x: (a.x + b.x) / 2 + ((b.y - a.y) / 2) * bulge,
    y: (a.y + b.y) / 2 - ((b.x - a.x) / 2) * bulge,
  };
  return arcThrough(a, via, b);
}

/** tan(sweep/4): how drawing files state an arc between two vertices. */
export const bulgeOf = (arc: Arc): number => Math.tan(arc.sweep / 4);

/** The point a fraction t (0…1) along the arc. */
export function pointOnArc(arc: Arc, t: number): Point {
  const angle = arc.start + arc.sweep * t;
  return {
    x: arc.centre.x + arc.radius * Math.cos(angle),
    y: arc.centre.y + arc.radius * Math.sin(angle),
  };
}

/** Length along the arc, in the unit of the coordinates. */
export const arcLength = (arc: Arc): number => Math.abs(arc.sweep) * arc.radius;

/** Signed area between chord and arc, r²(θ − sin θ)/2: what the arc adds to the area left of its chord. */
export const segmentArea = (radius: number, sweep: number): number =>
  (radius * radius * (sweep - Math.sin(sweep))) / 2;

/** The fraction of the way along the arc at which the point (taken out to the circle) lies; may fall outside 0…1. */
export function fractionOnArc(arc: Arc, p: Point): number {
  let turn = Math.atan2(p.y - arc.centre.y, p.x - arc.centre.x) - arc.start;
  // Of the equivalent turns take the one nearest the middle of the arc.
  const middle = arc.sweep / 2;
  turn -= 2 * Math.PI * Math.round((turn - middle) / (2 * Math.PI));
  return turn / arc.sweep;
}

/**
 * Pieces of a whole circle whose sagitta stays within the tolerance: 16 times a power of two, so that circles of
 * almost the same radius are cut at the same angles.
 */
export function circlePieces(radius: number, sagitta: number): number {
  const ratio = sagitta / radius;
  const step = ratio >= 1 ? Math.PI : 2 * Math.acos(1 - ratio);
  let pieces = 16;
  while ((2 * Math.PI) / pieces > step && pieces < 16384) pieces *= 2;
  return pieces;
}
