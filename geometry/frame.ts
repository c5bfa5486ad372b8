import { applyMatrix, invertMatrix, type Matrix3 } from './homography.ts';
import { distort, type Lens, undistort } from './lens.ts';
import { distance, type Point } from './point.ts';

/** A straight map in steps, each a matrix or a lens; the first goes first. Plain data, the same in both directions. */
export interface Frame {
  readonly steps: readonly FrameStep[];
}

/** One step of a frame. */
export type FrameStep =
  | { readonly kind: 'matrix'; readonly matrix: Matrix3; readonly back: Matrix3 }
  | { readonly kind: 'undistort' | 'distort'; readonly lens: Lens };

/** A step by a matrix; null for one without a way back. */
export function matrixStep(matrix: Matrix3): FrameStep | null {
  const back = invertMatrix(matrix);
  return back && { kind: 'matrix', matrix, back };
}

/** Takes a point through a frame. */
export const toFrame = (frame: Frame, p: Point): Point => frame.steps.reduce(forth, p);

/** Takes a point back through a frame. */
export const fromFrame = (frame: Frame, p: Point): Point => frame.steps.reduceRight(back, p);

function forth(p: Point, step: FrameStep): Point {
  if (step.kind === 'matrix') return applyMatrix(step.matrix, p);
  return step.kind === 'undistort' ? undistort(step.lens, p) : distort(step.lens, p);
}

function back(p: Point, step: FrameStep): Point {
  if (step.kind === 'matrix') return applyMatrix(step.back, p);
  return step.kind === 'undistort' ? distort(step.lens, p) : undistort(step.lens, p);
}

/** How lengths about a point grow through a frame, the two directions averaged: √|det|. */
export function frameScale(frame: Frame, p: Point, h = 1e-3): number {
  const at = (dx: number, dy: number) => toFrame(frame, { x: p.x + dx, y: p.y + dy });
  const [r, l, u, d] = [at(h, 0), at(-h, 0), at(0, h), at(0, -h)];
  return Math.sqrt(Math.abs((r.x - l.x) * (u.y - d.y) - (u.x - d.x) * (r.y - l.y))) / (2 * h);
}

/** Whether two frames are the same map, number by number. */
export const sameFrame = (a: Frame, b: Frame): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/** The straight-line distance between two points once through the frame. */
export const frameDistance = (frame: Frame, a: Point, b: Point): number =>
  distance(toFrame(frame, a), toFrame(frame, b));
