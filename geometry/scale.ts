import { Matrix, pseudoInverse } from 'ml-matrix';
import { SUSPECT_LIMIT, suspectsAmong, widening } from './suspects.ts';

/** A line of known length on a sheet. */
export interface KnownLine {
  /** Its extent on the sheet, in the sheet's unit. */
  readonly dx: number;
  readonly dy: number;
  readonly length: number;
  /** Standard deviation of the known length, and of the sheet's own reading of the line in the sheet's unit. */
  readonly deviation: number;
  readonly readDeviation: number;
}

/** Length on the ground for one unit of the sheet, across and up it, and how well both are known. */
export interface ScaleFit {
  readonly x: number;
  readonly y: number;
  /** Covariance of the two: xx, xy, yy. */
  readonly covariance: readonly [number, number, number];
  /** What the sheet makes of each line. */
  readonly read: readonly number[];
  /** Read minus known by its own deviation; 0 where nothing checks it. */
  readonly standardised: readonly number[];
  /** Weighted sum of squares of the residuals: about `redundancy` when all is well. */
  readonly squares: number;
  readonly redundancy: number;
  /** The line that disagrees with the others by more than chance; several when nothing tells them apart. */
  readonly suspects: readonly number[];
}

/**
 * Fits the scale of a sheet to lines of known length, by weighted least squares of L² = (x·dx)² + (y·dy)²: one scale, or
 * one across and one up when the sheet is stretched. Null when the lines do not fix it (no line, a line without length,
 * or all lines one way on a stretched sheet).
 */
export function fitScale(lines: readonly KnownLine[], stretched: boolean): ScaleFit | null {
  const reach = lines.reduce((s, l) => s + Math.hypot(l.dx, l.dy), 0);
  if (lines.length === 0 || !(reach > 0)) return null;
  const first = lines.reduce((s, l) => s + l.length, 0) / reach;
  let at = { x: first, y: first };
  let normal = Matrix.zeros(1, 1);
  for (let round = 0; round < 30; round++) {
    const rows = lines.map((l) => slopesOf(l, at, stretched));
    const weights = lines.map((l) => 1 / varianceOf(l, at));
    normal = Matrix.zeros(stretched ? 2 : 1, stretched ? 2 : 1);
    const right = Matrix.zeros(normal.rows, 1);
    lines.forEach((l, i) => {
      const row = rows[i]!;
      const miss = l.length - lengthAt(l, at);
      row.forEach((a, r) => {
        right.set(r, 0, right.get(r, 0) + a * weights[i]! * miss);
        row.forEach((b, c) => {
          normal.set(r, c, normal.get(r, c) + a * weights[i]! * b);
        });
      });
    });
    if (!normal.to1DArray().every(Number.isFinite)) return null;
    if (stretched && Math.abs(cosineOf(normal)) > 0.9999) return null;
    const step = pseudoInverse(normal).mmul(right).to1DArray();
    at = { x: at.x + step[0]!, y: at.y + (step[1] ?? step[0]!) };
    if (Math.max(...step.map(Math.abs)) < 1e-15 * first) break;
  }
  if (!(at.x > 0 && at.y > 0)) return null;
  const C = pseudoInverse(normal);
  const covariance = stretched
    ? ([C.get(0, 0), C.get(0, 1), C.get(1, 1)] as const)
    : ([C.get(0, 0), C.get(0, 0), C.get(0, 0)] as const);
  const read = lines.map((l) => lengthAt(l, at));
  const redundancy = lines.length - normal.rows;
  let squares = 0;
  const standardised = lines.map((l, i) => {
    const row = Matrix.rowVector(slopesOf(l, at, stretched));
    const variance = varianceOf(l, at);
    squares += (read[i]! - l.length) ** 2 / variance;
    const left = 1 - row.mmul(C).mmul(row.transpose()).get(0, 0) / variance;
    return redundancy <= 0 || left < 1e-6 ? 0 : (read[i]! - l.length) / Math.sqrt(variance * left);
  });
  const suspects = suspectsAmong(standardised, SUSPECT_LIMIT);
  const wider = widening(suspects, squares, redundancy);
  const [xx, xy, yy] = covariance;
  return {
    ...at,
    covariance: [xx * wider, xy * wider, yy * wider],
    read,
    standardised,
    squares,
    redundancy,
    suspects,
  };
}

interface Two {
  readonly x: number;
  readonly y: number;
}

const lengthAt = ({ dx, dy }: KnownLine, { x, y }: Two): number => Math.hypot(dx * x, dy * y);

const varianceOf = (l: KnownLine, { x, y }: Two): number =>
  l.deviation ** 2 + (l.readDeviation ** 2 * (x * x + y * y)) / 2;

/** How the length changes with the scale, or with the two. */
function slopesOf(l: KnownLine, at: Two, stretched: boolean): number[] {
  const length = lengthAt(l, at);
  const [x, y] = [(l.dx * l.dx * at.x) / length, (l.dy * l.dy * at.y) / length];
  return stretched ? [x, y] : [x + y];
}

/** How alike the two unknowns are to the lines; 1 when nothing tells them apart, or one is not seen at all. */
function cosineOf(normal: Matrix): number {
  const sizes = normal.get(0, 0) * normal.get(1, 1);
  return sizes > 0 ? normal.get(0, 1) / Math.sqrt(sizes) : 1;
}
