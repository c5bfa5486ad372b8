import { type Frame, fromFrame, type Point, type PointErrors, toFrame } from '../../../geometry/index.ts';
import type { Id, Job, Sheet } from '../../job/types.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import type { Quantity } from '../../working/quantity.ts';

/** What a sheet makes of one thing that is known of it. */
export interface FitCheck {
  /** What is known: “known length 2”, “mark 3”, “tape from mark 1 to mark 2”. */
  readonly name: string;
  /** As known and as the sheet has it; a mark has only how far it is off. */
  readonly knownM: Metres | null;
  readonly readM: Metres | null;
  readonly offM: Metres;
  /** By its own standard deviation; 0 where nothing checks it. */
  readonly standardised: number;
  /** It disagrees with the others by more than chance. */
  readonly suspect: boolean;
}

/** A sheet's way to the ground, how well it is known, and what speaks against it. */
export interface SolvedFit {
  readonly frame: Frame;
  readonly errors: FitErrors;
  readonly checks: readonly FitCheck[];
  /** Observations beyond what is needed. */
  readonly redundancy: number;
  /** Across over up: how much a second scale would differ from the first; 1 where it says nothing. */
  readonly stretch: number;
  /** Whether a place on the sheet shows ground, rather than what lies beyond the horizon. */
  readonly sees: (p: SheetPoint) => boolean;
}

/** How far off the points of a sheet are, on the ground. */
export interface FitErrors {
  /** Variance in x, covariance, variance in y of a point by itself, at a place on the ground; m². */
  readonly own: (ground: Point) => readonly [number, number, number];
  /** How the fit moves all points together. */
  readonly shared: {
    readonly covariance: readonly (readonly number[])[];
    readonly slopes: (ground: Point) => readonly [readonly number[], readonly number[]];
  } | null;
  /** The same in words, for workings. */
  readonly point: Quantity;
  readonly together: string;
}

/** Why a sheet has no way to the ground yet. */
export type NoFit =
  | { readonly kind: 'none' }
  | { readonly kind: 'unusable' }
  | { readonly kind: 'too-few-marks'; readonly missing: number }
  | { readonly kind: 'marks-in-line' }
  /** Their places run the other way round than the photo shows. */
  | { readonly kind: 'marks-mirrored' }
  | { readonly kind: 'mark-without-place'; readonly mark: number }
  /** The taped figure of the marks can still move; the distance that would hold it best. */
  | { readonly kind: 'marks-loose'; readonly a: number; readonly b: number };

/** What solvers look at: the job for its values, the sheet, and the other sheets' fits. */
export interface FitContext {
  readonly job: Job;
  readonly sheet: Sheet;
  readonly solved: (sheetId: Id) => SolvedFit | null;
}

/** Everything is seen. */
export const seesAll = (): boolean => true;

/** The variances of a point whose sheet coordinates err alike by a deviation, carried to the ground. */
export function carriedErrors(frame: Frame, deviation: number, step: number): FitErrors['own'] {
  return (ground) => {
    const p = fromFrame(frame, ground);
    const at = (dx: number, dy: number) => toFrame(frame, { x: p.x + dx, y: p.y + dy });
    const [r, l, u, d] = [at(step, 0), at(-step, 0), at(0, step), at(0, -step)];
    const k = deviation / (2 * step);
    const [a, b, c, e] = [(r.x - l.x) * k, (u.x - d.x) * k, (r.y - l.y) * k, (u.y - d.y) * k];
    return [a * a + b * b, a * c + b * e, c * c + e * e];
  };
}

/** The errors of a plan's points from those of their sheet. */
export const planErrors = ({ own, shared }: FitErrors): PointErrors => ({
  own: (p) => own(p.at),
  shared: shared && { covariance: shared.covariance, slopes: (p) => shared.slopes(p.at) },
});
