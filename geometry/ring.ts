import { orient2d } from 'robust-predicates';
import {
  type Arc,
  arcLength,
  arcThrough,
  circlePieces,
  fractionOnArc,
  pointOnArc,
  segmentArea,
} from './arc.ts';
import { type Box, boxOf, cross, distance, lerp, type Point } from './point.ts';

/** A corner of an outline. With `via`, the side that leaves this corner is the arc through that point. */
export interface Vertex extends Point {
  readonly via?: Point | null;
}

/** A closed outline; the last vertex joins the first. Either direction of travel; self-touching is allowed. */
export type Ring = readonly Vertex[];

/** Side k of a ring: straight, or an arc. */
export interface Side {
  readonly a: Point;
  readonly b: Point;
  readonly arc: Arc | null;
}

/** Side k, from vertex k to the next. */
export function sideOf(ring: Ring, k: number): Side {
  const a = ring[k]!;
  const b = ring[(k + 1) % ring.length]!;
  return { a, b, arc: a.via ? arcThrough(a, a.via, b) : null };
}

/** All sides in order; as many as vertices. */
export const sidesOf = (ring: Ring): Side[] => ring.map((_, k) => sideOf(ring, k));

/** Length of a side in the unit of the coordinates; true arc length on arcs. */
export const sideLength = (side: Side): number => (side.arc ? arcLength(side.arc) : distance(side.a, side.b));

/** The point a fraction t along a side. */
export const pointOnSide = (side: Side, t: number): Point =>
  side.arc ? pointOnArc(side.arc, t) : lerp(side.a, side.b, t);

/** The fraction along the side nearest to p, kept within 0…1. */
export function fractionOnSide(side: Side, p: Point): number {
  if (side.arc) {
    const t = fractionOnArc(side.arc, p);
    if (t >= 0 && t <= 1) return t;
    return distance(p, side.a) <= distance(p, side.b) ? 0 : 1;
  }
  const dx = side.b.x - side.a.x;
  const dy = side.b.y - side.a.y;
  const d2 = dx * dx + dy * dy;
  if (d2 === 0) return 0;
  return Math.min(1, Math.max(0, ((p.x - side.a.x) * dx + (p.y - side.a.y) * dy) / d2));
}

/**
 * Signed area (counter-clockwise positive) of an outline with straight and arc sides: the shoelace sum
 * about the first vertex plus the true segment of each arc. Where the outline overlaps itself each part
 * counts as often as it is wound. Source: Green's theorem; circle segment r²(θ − sin θ)/2.
 */
export function ringArea(ring: Ring): number {
  let area = 0;
  const o = ring[0];
  if (!o) return 0;
  for (const { a, b, arc } of sidesOf(ring)) {
    area += cross(o, a, b) / 2;
    if (arc) area += segmentArea(arc.radius, arc.sweep);
  }
  return area;
}

/** Length of the whole outline; arcs by their true length. */
export const ringLength = (ring: Ring): number => sidesOf(ring).reduce((sum, s) => sum + sideLength(s), 0);

/** The smallest upright box around an outline, arcs by their true extent. */
export function ringBox(ring: Ring): Box {
  let points: Point[] | null = null;
  for (let k = 0; k < ring.length; k++) {
    const arc = ring[k]!.via ? sideOf(ring, k).arc : null;
    if (!arc) continue;
    points ??= [...ring];
    const low = Math.min(arc.start, arc.start + arc.sweep);
    const high = Math.max(arc.start, arc.start + arc.sweep);
    for (let q = Math.ceil(low / (Math.PI / 2)); q * (Math.PI / 2) < high; q++) {
      points.push({
        x: arc.centre.x + arc.radius * Math.cos((q * Math.PI) / 2),
        y: arc.centre.y + arc.radius * Math.sin((q * Math.PI) / 2),
      });
    }
  }
  return boxOf(points ?? ring);
}

/** A full circle as a ring of two half-circle sides. */
export const circleRing = (centre: Point, radius: number): Ring => [
  { x: centre.x + radius, y: centre.y, via: { x: centre.x, y: centre.y + radius } },
  { x: centre.x - radius, y: centre.y, via: { x: centre.x, y: centre.y - radius } },
];

/** A rectangle about a centre; `angle` turns its length axis counter-clockwise from +x, in radians. */
export function rectangleRing(centre: Point, length: number, width: number, angle: number): Ring {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const at = (u: number, v: number) => ({ x: centre.x + u * c - v * s, y: centre.y + u * s + v * c });
  const u = length / 2;
  const v = width / 2;
  return [at(-u, -v), at(u, -v), at(u, v), at(-u, v)];
}

/** The rectangle of a given width about the line a–b: a channel drain. Empty when the line has no length. */
export function stripRing(a: Point, b: Point, width: number): Ring {
  const length = distance(a, b);
  if (length === 0) return [];
  const angle = Math.atan2(b.y - a.y, b.x - a.x);
  return rectangleRing(lerp(a, b, 0.5), length, width, angle);
}

/** Angles closer to an end than this share of a piece make no piece of their own. */
const TINY_PIECE = 1e-6;

/**
 * Points along a side after its start and up to its end: just the end when straight. An arc is cut at fixed angles of
 * its circle, so that arcs on one circle, travelled either way and however far, share their points.
 * @param also fractions along the side to be cut at besides
 */
export function flattenSide(side: Side, sagitta: number, also: readonly number[] = []): Point[] {
  const { arc } = side;
  if (!arc) return [side.b];
  const step = (2 * Math.PI) / circlePieces(arc.radius, sagitta);
  const low = Math.min(arc.start, arc.start + arc.sweep);
  const high = Math.max(arc.start, arc.start + arc.sweep);
  const at: Array<{ t: number; point: Point }> = also.map((t) => ({ t, point: pointOnArc(arc, t) }));
  for (let k = Math.ceil(low / step + TINY_PIECE); k * step < high - step * TINY_PIECE; k++) {
    const angle = k * step;
    // The angle within one turn, so that every arc on the circle comes to the same point to the last bit.
    const own = step * (k - Math.round((2 * Math.PI) / step) * Math.floor(angle / (2 * Math.PI)));
    const { centre, radius } = arc;
    const point = { x: centre.x + radius * Math.cos(own), y: centre.y + radius * Math.sin(own) };
    at.push({ t: (angle - arc.start) / arc.sweep, point });
  }
  at.sort((p, q) => p.t - q.t);
  return [...at.map(({ point }) => point), side.b];
}

/** The whole ring as points (arcs within the sagitta); not closed. For drawing and picking, not for areas. */
export function flattenRing(ring: Ring, sagitta: number): Point[] {
  const points: Point[] = [];
  for (const side of sidesOf(ring)) points.push(...flattenSide(side, sagitta));
  return points;
}

/** Whether p lies inside the points by the even-odd rule, decided exactly; points on the edge may go either way. */
export function insidePoints(points: readonly Point[], p: Point): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const a = points[i]!;
    const b = points[j]!;
    if (a.y > p.y === b.y > p.y) continue;
    // The predicate takes y down: it is positive where p lies right of low→high with y up.
    const [low, high] = a.y < b.y ? [a, b] : [b, a];
    if (orient2d(low.x, low.y, high.x, high.y, p.x, p.y) < 0) inside = !inside;
  }
  return inside;
}
