import { Matrix, pseudoInverse, SingularValueDecomposition } from 'ml-matrix';
import { type Lens, undistort } from './lens.ts';
import { boxOf, cross, type Point } from './point.ts';
import { fail, ok, type Result } from './result.ts';
import { POINT_SUSPECT_LIMIT, suspectsAmong, widening } from './suspects.ts';

/** A 3 × 3 matrix, row by row. As a map of the plane: (x, y) ↦ (X/W, Y/W) with (X, Y, W) = M·(x, y, 1). */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

/** Maps a point; infinite where it lies on the line that goes to infinity. */
export function applyMatrix(m: Matrix3, { x, y }: Point): Point {
  const w = m[6] * x + m[7] * y + m[8];
  return { x: (m[0] * x + m[1] * y + m[2]) / w, y: (m[3] * x + m[4] * y + m[5]) / w };
}

/** W of a point: its sign tells the two sides of the horizon, the line that goes to infinity. */
export const depthOf = (m: Matrix3, { x, y }: Point): number => m[6] * x + m[7] * y + m[8];

/** a·b: first b, then a. */
export function multiplyMatrix(a: Matrix3, b: Matrix3): Matrix3 {
  const cell = (r: number, c: number) =>
    a[r * 3]! * b[c]! + a[r * 3 + 1]! * b[c + 3]! + a[r * 3 + 2]! * b[c + 6]!;
  return [0, 1, 2].flatMap((r) => [0, 1, 2].map((c) => cell(r, c))) as unknown as Matrix3;
}

/** The way back, to a factor; null for a matrix that has none. */
export function invertMatrix(m: Matrix3): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i] = m;
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const size = Math.max(...m.map(Math.abs)) ** 3;
  if (!(Math.abs(det) > 1e-15 * size)) return null;
  return [
    (e * i - f * h) / det,
    (c * h - b * i) / det,
    (b * f - c * e) / det,
    (f * g - d * i) / det,
    (a * i - c * g) / det,
    (c * d - a * f) / det,
    (d * h - e * g) / det,
    (b * g - a * h) / det,
    (a * e - b * d) / det,
  ];
}

/** A point seen in a picture and where it is on the plane. */
export interface SeenPoint {
  readonly seen: Point;
  readonly at: Point;
}

/** How well the two are known. */
export interface SeenErrors {
  /** Standard deviation of each coordinate of a seen point, in the picture's unit. */
  readonly seen: number;
  /** Covariance of the points' places, x and y of each in turn (2n × 2n), in the square of the plane's unit. */
  readonly at: readonly (readonly number[])[];
}

/** Why no rectification can be found. */
export type HomographyProblem =
  | { readonly kind: 'too-few' }
  /** Three of four in one line, seen or on the plane, or all nearly so. */
  | { readonly kind: 'in-line' };

/** A picture's way to the plane, and how well it is known. Plain data. */
export interface Rectification {
  /** From the (straightened) picture to the plane. */
  readonly matrix: Matrix3;
  readonly lens: Lens | null;
  /** Projection minus known place of each point, in the plane's unit. */
  readonly residuals: readonly Point[];
  /** Each residual by what may be expected of it, both coordinates together (√χ² of two); 0 where nothing checks the point. */
  readonly standardised: readonly number[];
  /** The points most likely wrong, by number; several when nothing tells them apart. Empty when all agree. */
  readonly suspects: readonly number[];
  /** Observations beyond what is needed: 2n − 8. */
  readonly redundancy: number;
  /**
   * The parameters that were fitted, in normalised coordinates, and their covariance; widened by how badly the points
   * disagree when one of them must be wrong.
   */
  readonly parameters: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly frames: { readonly seen: Norm; readonly at: Norm };
}

/** Shift and scale that bring points about the origin, √2 away on average. */
export interface Norm {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

function normOf(points: readonly Point[]): Norm {
  const x = points.reduce((s, p) => s + p.x, 0) / points.length;
  const y = points.reduce((s, p) => s + p.y, 0) / points.length;
  const mean = points.reduce((s, p) => s + Math.hypot(p.x - x, p.y - y), 0) / points.length;
  return { x, y, scale: Math.SQRT2 / mean };
}

const enter = (n: Norm, p: Point): Point => ({ x: (p.x - n.x) * n.scale, y: (p.y - n.y) * n.scale });

const normMatrix = (n: Norm): Matrix3 => [n.scale, 0, -n.x * n.scale, 0, n.scale, -n.y * n.scale, 0, 0, 1];
const backMatrix = (n: Norm): Matrix3 => [1 / n.scale, 0, n.x, 0, 1 / n.scale, n.y, 0, 0, 1];

/**
 * Finds the way from a picture of a plane to the plane from four or more points seen in it: the direct linear
 * transformation as a start, then weighted least squares (Gauss and Newton) with the errors of both sides. With a lens
 * its radial term is fitted along, held by how well it is known already.
 * Sources: Hartley and Zisserman, Multiple View Geometry, 2nd ed., alg. 4.2 (normalised DLT) and 5.2 (covariance), from
 * memory. Fails with fewer than four points, or when they do not fix it.
 */
export function rectify(
  points: readonly SeenPoint[],
  errors: SeenErrors,
  lens: { readonly lens: Lens; readonly deviation: number } | null = null,
): Result<Rectification, HomographyProblem> {
  if (points.length < 4) return fail({ kind: 'too-few' });
  if (inLine(points.map((p) => p.seen)) || inLine(points.map((p) => p.at))) return fail({ kind: 'in-line' });
  const straight = (p: Point) => (lens ? undistort(lens.lens, p) : p);
  const frames = { seen: normOf(points.map((p) => straight(p.seen))), at: normOf(points.map((p) => p.at)) };
  const start = directLinear(
    points.map((p) => [enter(frames.seen, straight(p.seen)), enter(frames.at, p.at)]),
  );
  if (!start) return fail({ kind: 'in-line' });
  const fitted = refine(points, errors, lens, frames, start);
  if (!fitted) return fail({ kind: 'in-line' });
  const { parameters, covariance, weight } = fitted;
  const own = lens ? { ...lens.lens, k: parameters[8]! } : null;
  const matrix = scaled(
    multiplyMatrix(backMatrix(frames.at), multiplyMatrix(matrixOf(parameters), normMatrix(frames.seen))),
  );
  if (!invertMatrix(matrix)) return fail({ kind: 'in-line' });
  const found = { matrix, lens: own, parameters, covariance, frames, redundancy: 2 * points.length - 8 };
  const residuals = points.map(({ seen, at }) => {
    const p = project(found, seen);
    return { x: p.x - at.x, y: p.y - at.y };
  });
  const standardised = standardise(found, points, residuals, weight);
  const suspects = suspectsAmong(standardised, POINT_SUSPECT_LIMIT);
  const misses = Matrix.columnVector(residuals.flatMap((r) => [r.x, r.y]));
  const squares = misses.transpose().mmul(weight).mmul(misses).get(0, 0);
  const wider = widening(suspects, squares, found.redundancy);
  return ok({
    ...found,
    covariance: covariance.map((row) => row.map((v) => v * wider)),
    residuals,
    standardised,
    suspects,
  });
}

/** Whether points lie so that no map is fixed: fewer than four of which no three are in a line. */
function inLine(points: readonly Point[]): boolean {
  const { minX, minY, maxX, maxY } = boxOf(points);
  const small = 1e-4 * Math.hypot(maxX - minX, maxY - minY) ** 2;
  const bent = (i: number, j: number, k: number) =>
    Math.abs(cross(points[i]!, points[j]!, points[k]!)) > small;
  const n = points.length;
  for (let a = 0; a < n; a++)
    for (let b = a + 1; b < n; b++)
      for (let c = b + 1; c < n; c++) {
        if (!bent(a, b, c)) continue;
        for (let d = c + 1; d < n; d++) if (bent(a, b, d) && bent(a, c, d) && bent(b, c, d)) return false;
      }
  return true;
}

function directLinear(pairs: ReadonlyArray<readonly [Point, Point]>): number[] | null {
  const rows = pairs.flatMap(([p, q]) => [
    [p.x, p.y, 1, 0, 0, 0, -q.x * p.x, -q.x * p.y, -q.x],
    [0, 0, 0, p.x, p.y, 1, -q.y * p.x, -q.y * p.y, -q.y],
  ]);
  // A ninth row of nought, so that four points, too, leave a full set of right singular vectors.
  while (rows.length < 9) rows.push(new Array(9).fill(0));
  const h = new SingularValueDecomposition(new Matrix(rows), {
    autoTranspose: false,
  }).rightSingularVectors.getColumn(8);
  return Math.abs(h[8]!) < 1e-9 ? null : h.slice(0, 8).map((v) => v / h[8]!);
}

const matrixOf = (t: readonly number[]): Matrix3 => [...t.slice(0, 8), 1] as unknown as Matrix3;

function scaled(m: Matrix3): Matrix3 {
  const size = Math.abs(m[8]) > 1e-12 * Math.max(...m.map(Math.abs)) ? m[8] : 1;
  return m.map((v) => v / size) as unknown as Matrix3;
}

/** The part of a rectification that maps points. */
export type Projection = Pick<Rectification, 'parameters' | 'lens' | 'frames'>;

/** A seen point's place on the plane, in the plane's unit. */
function project({ parameters, lens, frames }: Projection, seen: Point): Point {
  const p = lens ? undistort({ ...lens, k: parameters[8]! }, seen) : seen;
  const q = applyMatrix(matrixOf(parameters), enter(frames.seen, p));
  return { x: q.x / frames.at.scale + frames.at.x, y: q.y / frames.at.scale + frames.at.y };
}

/** How the place of a seen point changes with each parameter: two rows, in the plane's unit. */
export function parameterSlopes(found: Projection, seen: Point): [number[], number[]] {
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0; i < found.parameters.length; i++) {
    const h = 1e-6;
    const at = (d: number) =>
      project({ ...found, parameters: found.parameters.map((v, k) => (k === i ? v + d : v)) }, seen);
    const [high, low] = [at(h), at(-h)];
    x.push((high.x - low.x) / (2 * h));
    y.push((high.y - low.y) / (2 * h));
  }
  return [x, y];
}

/** How the place of a seen point changes with the point: dX/dx, dX/dy, dY/dx, dY/dy. */
function seenSlopes(found: Projection, seen: Point): [number, number, number, number] {
  const h = 1e-4 / found.frames.seen.scale;
  const at = (dx: number, dy: number) => project(found, { x: seen.x + dx, y: seen.y + dy });
  const [r, l, u, d] = [at(h, 0), at(-h, 0), at(0, h), at(0, -h)];
  return [(r.x - l.x) / (2 * h), (u.x - d.x) / (2 * h), (r.y - l.y) / (2 * h), (u.y - d.y) / (2 * h)];
}

function refine(
  points: readonly SeenPoint[],
  errors: SeenErrors,
  lens: { readonly lens: Lens; readonly deviation: number } | null,
  frames: Projection['frames'],
  start: readonly number[],
): { parameters: number[]; covariance: number[][]; weight: Matrix } | null {
  let parameters = lens ? [...start, lens.lens.k] : [...start];
  const prior = parameters.length === 9 ? 1 / Math.max(lens!.deviation, 1e-9) ** 2 : 0;
  let covariance: Matrix | null = null;
  let weight: Matrix | null = null;
  for (let round = 0; round < 12; round++) {
    const found: Projection = { parameters, lens: lens?.lens ?? null, frames };
    weight = weightOf(found, points, errors);
    if (!weight) return null;
    const slopes = new Matrix(points.flatMap((p) => parameterSlopes(found, p.seen)));
    const misses = Matrix.columnVector(
      points.flatMap(({ seen, at }) => {
        const p = project(found, seen);
        return [at.x - p.x, at.y - p.y];
      }),
    );
    const normal = slopes.transpose().mmul(weight).mmul(slopes);
    const right = slopes.transpose().mmul(weight).mmul(misses);
    if (prior > 0) {
      normal.set(8, 8, normal.get(8, 8) + prior);
      right.set(8, 0, right.get(8, 0) + prior * (lens!.lens.k - parameters[8]!));
    }
    if (![...normal.to1DArray(), ...right.to1DArray()].every(Number.isFinite)) return null;
    covariance = pseudoInverse(normal);
    const step = covariance.mmul(right).to1DArray();
    parameters = parameters.map((v, i) => v + step[i]!);
    if (Math.max(...step.map(Math.abs)) < 1e-12) break;
  }
  return parameters.every(Number.isFinite)
    ? { parameters, covariance: covariance!.to2DArray(), weight: weight! }
    : null;
}

/** The inverse covariance of the misses: the seen points' errors carried to the plane, and those of their places. */
function weightOf(found: Projection, points: readonly SeenPoint[], errors: SeenErrors): Matrix | null {
  const all = new Matrix(errors.at.map((row) => [...row]));
  // A hair that keeps it invertible when nothing is said to err.
  const hair = (1e-9 / found.frames.at.scale) ** 2;
  points.forEach(({ seen }, i) => {
    const [a, b, c, d] = seenSlopes(found, seen);
    const v = errors.seen ** 2;
    const put = (r: number, s: number, add: number) =>
      all.set(2 * i + r, 2 * i + s, all.get(2 * i + r, 2 * i + s) + add);
    put(0, 0, v * (a * a + b * b) + hair);
    put(1, 1, v * (c * c + d * d) + hair);
    put(0, 1, v * (a * c + b * d));
    put(1, 0, v * (a * c + b * d));
  });
  return all.to1DArray().every(Number.isFinite) ? pseudoInverse(all) : null;
}

/** The residuals by what may be expected of them, √(rᵀ·S⁻¹·r) with S the errors less what the fit takes up. */
function standardise(
  found: Projection & Pick<Rectification, 'covariance' | 'redundancy'>,
  points: readonly SeenPoint[],
  residuals: readonly Point[],
  weight: Matrix,
): number[] {
  if (found.redundancy <= 0) return points.map(() => 0);
  const slopes = new Matrix(points.flatMap((p) => parameterSlopes(found, p.seen)));
  const fit = slopes.mmul(new Matrix(found.covariance.map((row) => [...row]))).mmul(slopes.transpose());
  const errors = pseudoInverse(weight);
  const left = Matrix.sub(errors, fit);
  return residuals.map((r, i) => {
    const k = 2 * i;
    const [xx, xy, yy] = [left.get(k, k), left.get(k, k + 1), left.get(k + 1, k + 1)];
    // Along the axes of the ellipse, each by itself; what the fit takes up whole, nothing checks.
    const unchecked = 1e-9 * (errors.get(k, k) + errors.get(k + 1, k + 1));
    const middle = (xx + yy) / 2;
    const reach = Math.hypot((xx - yy) / 2, xy);
    const angle = Math.atan2(2 * xy, xx - yy) / 2;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const along = middle + reach > unchecked ? (r.x * c + r.y * s) ** 2 / (middle + reach) : 0;
    const across = middle - reach > unchecked ? (r.y * c - r.x * s) ** 2 / (middle - reach) : 0;
    return Math.sqrt(along + across);
  });
}
