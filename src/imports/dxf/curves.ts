import { arcFromBulge, type Point, pointOnArc, type Ring, type Vertex } from '../../../geometry/index.ts';

/** Sides that stand for a whole turn of an ellipse: its area comes out 1.3e-5 too small. */
const TURN_SIDES = 720;

/** Points of an ellipse from one parameter to another, ends included; the minor axis stands left of the major. */
export function ellipsePoints(centre: Point, major: Point, ratio: number, from: number, to: number): Point[] {
  const sweep = to > from ? to - from : to - from + 2 * Math.PI;
  const n = Math.max(4, Math.ceil((TURN_SIDES * sweep) / (2 * Math.PI)));
  return Array.from({ length: n + 1 }, (_, i) => {
    const t = from + (sweep * i) / n;
    const [c, s] = [Math.cos(t), Math.sin(t) * ratio];
    return { x: centre.x + major.x * c - major.y * s, y: centre.y + major.y * c + major.x * s };
  });
}

/** The arc of a circle counter-clockwise from one angle to another, as a path of one or two sides. */
export function arcPath(centre: Point, radius: number, from: number, to: number): Ring {
  let sweep = (to - from) % (2 * Math.PI);
  if (sweep <= 1e-12) sweep += 2 * Math.PI;
  const at = (t: number): Point => ({
    x: centre.x + radius * Math.cos(t),
    y: centre.y + radius * Math.sin(t),
  });
  // A side is at most half a turn: its ends must not meet.
  const parts = sweep > Math.PI * 1.5 ? 2 : 1;
  const path: Vertex[] = [];
  for (let i = 0; i < parts; i++) {
    const start = from + (sweep * i) / parts;
    path.push({ ...at(start), via: at(start + sweep / parts / 2) });
  }
  path.push(at(from + sweep));
  return path;
}

/** Corners with bulges as corners with third points. */
export function bulgedRing(points: ReadonlyArray<Point & { readonly bulge: number }>, closed: boolean): Ring {
  return points.map((p, i): Vertex => {
    const next = points[(i + 1) % points.length]!;
    const last = !closed && i === points.length - 1;
    const arc = last || Math.abs(p.bulge) < 1e-12 ? null : arcFromBulge(p, next, p.bulge);
    return { x: p.x, y: p.y, via: arc ? pointOnArc(arc, 0.5) : null };
  });
}

/** Points to each span of a spline. */
const SPAN_POINTS = 16;

/**
 * Points along a B-spline, weights allowed, by de Boor's recurrence. Empty when its knots do not fit its points.
 * Source: C. de Boor, A Practical Guide to Splines, from memory.
 */
export function splinePoints(
  degree: number,
  knots: readonly number[],
  control: readonly Point[],
  weights: readonly number[],
): Point[] {
  const n = control.length;
  if (degree < 1 || degree > 10 || n < degree + 1 || knots.length !== n + degree + 1) return [];
  const points: Point[] = [];
  for (let span = degree; span < n; span++) {
    const [low, high] = [knots[span]!, knots[span + 1]!];
    if (!(high > low)) continue;
    for (let i = points.length === 0 ? 0 : 1; i <= SPAN_POINTS; i++) {
      const p = deBoor(degree, knots, control, weights, span, low + ((high - low) * i) / SPAN_POINTS);
      if (Number.isFinite(p.x) && Number.isFinite(p.y)) points.push(p);
    }
  }
  return points;
}

function deBoor(
  degree: number,
  knots: readonly number[],
  control: readonly Point[],
  weights: readonly number[],
  span: number,
  t: number,
): Point {
  const d = Array.from({ length: degree + 1 }, (_, j) => {
    const i = span - degree + j;
    const w = weights[i] ?? 1;
    return [control[i]!.x * w, control[i]!.y * w, w] as [number, number, number];
  });
  for (let r = 1; r <= degree; r++) {
    for (let j = degree; j >= r; j--) {
      const i = span - degree + j;
      const width = knots[i + degree - r + 1]! - knots[i]!;
      const a = width === 0 ? 0 : (t - knots[i]!) / width;
      d[j] = [0, 1, 2].map((k) => (1 - a) * d[j - 1]![k]! + a * d[j]![k]!) as [number, number, number];
    }
  }
  const [x, y, w] = d[degree]!;
  return { x: x / w, y: y / w };
}
