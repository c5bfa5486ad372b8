import { distance, type Point } from './point.ts';

/**
 * A lens that bends straight lines: from a point of the picture to where a straight lens would have put it,
 * u ↦ u·(1 + k·|u|²), u from the centre in units of `radius`. k > 0 straightens a barrel, k < 0 a cushion.
 */
export interface Lens {
  readonly centre: Point;
  /** Where |u| = 1: half the picture's diagonal, as a rule. */
  readonly radius: number;
  readonly k: number;
}

/** Where a straight lens would have put a point. */
export function undistort({ centre, radius, k }: Lens, p: Point): Point {
  const x = (p.x - centre.x) / radius;
  const y = (p.y - centre.y) / radius;
  const grow = 1 + k * (x * x + y * y);
  return { x: centre.x + x * grow * radius, y: centre.y + y * grow * radius };
}

/** The way back, by Newton's method on the distance from the centre; exact to rounding while the lens folds nothing over. */
export function distort({ centre, radius, k }: Lens, p: Point): Point {
  const far = distance(centre, p) / radius;
  if (far === 0 || k === 0) return p;
  let r = far;
  for (let i = 0; i < 30; i++) {
    const slope = 1 + 3 * k * r * r;
    if (Math.abs(slope) < 1e-9) break;
    const step = (r * (1 + k * r * r) - far) / slope;
    r -= step;
    if (Math.abs(step) < 1e-15) break;
  }
  return { x: centre.x + ((p.x - centre.x) * r) / far, y: centre.y + ((p.y - centre.y) * r) / far };
}

/** What straight lines say of a lens. */
export interface LensFit {
  readonly lens: Lens;
  /** Standard deviation of k, from that of the points. */
  readonly deviation: number;
  /** Root mean square distance of the points from their lines, before and after, in the picture's unit. */
  readonly before: number;
  readonly after: number;
}

/** A bend known no better than this is not known. */
const MOST_DEVIATION = 0.1;

/** More bending than any lens that takes pictures of yards. */
const MOST = 0.9;

/**
 * Finds the one radial term that makes lines straight which are straight: least squares of the points' distances from
 * their own best lines. Null when no line has three points, or the points say nothing of the lens.
 * @param deviation of each coordinate of a point, in the picture's unit
 */
export function lensFrom(
  lines: readonly (readonly Point[])[],
  centre: Point,
  radius: number,
  deviation: number,
): LensFit | null {
  const useful = lines.filter((line) => line.length >= 3);
  if (useful.length === 0) return null;
  const count = useful.reduce((s, line) => s + line.length, 0);
  const bend = (k: number): number =>
    useful.reduce((s, line) => s + offLine(line.map((p) => undistort({ centre, radius, k }, p))), 0);
  let [low, high] = bracket(bend);
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let i = 0; i < 80; i++) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    if (bend(a) < bend(b)) high = b;
    else low = a;
  }
  const k = (low + high) / 2;
  const h = 1e-3;
  // The sum of squares is about S + curvature·(k − k̂)²/2; it rises by one variance at one deviation of k.
  const curvature = (bend(k + h) - 2 * bend(k) + bend(k - h)) / (h * h);
  // Lines that say next to nothing of the lens would bend the picture at random.
  const spread = deviation * Math.sqrt(2 / curvature);
  if (!(curvature > 0) || !(spread <= MOST_DEVIATION) || k < -MOST / 3.05) return null;
  return {
    lens: { centre, radius, k },
    deviation: spread,
    before: Math.sqrt(bend(0) / count),
    after: Math.sqrt(bend(k) / count),
  };
}

/** The interval about the least of a coarse row of values. */
function bracket(f: (k: number) => number): [number, number] {
  const steps = 36;
  let best = 0;
  let least = Infinity;
  for (let i = 0; i <= steps; i++) {
    const k = -MOST / 3 + (i / steps) * (MOST + MOST / 3);
    const value = f(k);
    if (value < least) {
      least = value;
      best = k;
    }
  }
  const step = (MOST + MOST / 3) / steps;
  return [best - step, best + step];
}

/** Sum of the squared distances of points from their best line: the smaller eigenvalue of their scatter. */
function offLine(points: readonly Point[]): number {
  const n = points.length;
  const mx = points.reduce((s, p) => s + p.x, 0) / n;
  const my = points.reduce((s, p) => s + p.y, 0) / n;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const p of points) {
    xx += (p.x - mx) ** 2;
    xy += (p.x - mx) * (p.y - my);
    yy += (p.y - my) ** 2;
  }
  const half = (xx + yy) / 2;
  return Math.max(0, half - Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy));
}
