import {
  adjustFigure,
  cross,
  depthOf,
  distance,
  type FigureFit,
  type Frame,
  type FrameStep,
  fromFrame,
  lensFrom,
  matrixStep,
  nextMeasure,
  type Observation,
  type Point,
  parameterSlopes,
  rectify,
  ringArea,
  type SeenPoint,
  toFrame,
  undistort,
} from '../../../geometry/index.ts';
import type { Fit, GroundMark, Job } from '../../job/types.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { measureValue } from '../measure-values.ts';
import { carriedErrors, type FitCheck, type FitContext, type NoFit, type SolvedFit } from './solved-fit.ts';
import { cornerDeviation, tapeDeviation } from './tape.ts';

type MarksFit = Extract<Fit, { kind: 'marks' }>;

/** Where the marks are on the ground, how well that is known (2n × 2n, m²), and what speaks against it. */
interface Places {
  readonly at: readonly Point[];
  readonly covariance: readonly (readonly number[])[];
  readonly checks: readonly FitCheck[];
  readonly redundancy: number;
}

/** Ground farther than this from the marks is as good as the horizon. */
const FARTHEST_M = 1000;

/** Straightens a photo by marks on the ground. */
export function solveMarks(fit: MarksFit, { job, sheet }: FitContext): SolvedFit | NoFit {
  if (fit.marks.length < 4) return { kind: 'too-few-marks', missing: 4 - fit.marks.length };
  const places = placesOf(job, fit);
  if ('kind' in places) return places;
  const tap = measureValue(job, 'measure.tap');
  const seen: SeenPoint[] = fit.marks.map(({ at }, i) => ({ seen: at, at: places.at[i]! }));
  const lens = lensOf(fit, sheet.picture, tap.value);
  const rectified = rectify(seen, { seen: Math.max(tap.value, 1e-6), at: places.covariance }, lens);
  if (!rectified.ok) return { kind: 'marks-in-line' };
  const way = rectified.value;
  const step = matrixStep(way.matrix);
  if (!step) return { kind: 'marks-in-line' };
  const bend: FrameStep[] = way.lens ? [{ kind: 'undistort', lens: way.lens }] : [];
  const frame: Frame = { steps: [...bend, step] };
  const straight = (p: Point) => (way.lens ? undistort(way.lens, p) : p);
  const side = Math.sign(depthOf(way.matrix, straight(fit.marks[0]!.at)));
  if (fit.marks.some((m) => Math.sign(depthOf(way.matrix, straight(m.at))) !== side))
    return { kind: 'marks-in-line' };
  // From a picture with y down to ground with y up everything is mirrored once; else the places are.
  const around = fit.marks[0]!.at;
  const beside = (dx: number, dy: number) => toFrame(frame, { x: around.x + dx, y: around.y + dy });
  if (cross(beside(0, 0), beside(1, 0), beside(0, 1)) > 0) return { kind: 'marks-mirrored' };
  const middle = places.at[0]!;
  const own = carriedErrors(frame, tap.value, 0.5);
  return {
    frame,
    errors: {
      own,
      shared: {
        covariance: way.covariance,
        slopes: (ground) => parameterSlopes(way, fromFrame(frame, ground)),
      },
      point: cornerDeviation(
        Math.sqrt(Math.max(...places.at.map((p) => (own(p)[0] + own(p)[2]) / 2))),
        tr`the tap, in pixels, as the photo stretches it on the ground, at the mark where that is most`,
        { p: tap },
      ),
      together: tr`the straightening, from marks tapped and taped; it grows away from them`,
    },
    checks: [
      ...fit.marks.map((_, i) => ({
        name: tr`mark ${i + 1}`,
        knownM: null,
        readM: null,
        offM: Math.hypot(way.residuals[i]!.x, way.residuals[i]!.y),
        standardised: way.standardised[i]!,
        suspect: way.suspects.includes(i),
      })),
      ...places.checks,
    ],
    redundancy: way.redundancy + places.redundancy,
    stretch: 1,
    sees: (p) => {
      const q = straight(p);
      if (Math.sign(depthOf(way.matrix, q)) !== side) return false;
      return distance(toFrame(frame, p), middle) <= FARTHEST_M;
    },
  };
}

/** The lens, where straight lines say something of it. */
function lensOf(
  fit: MarksFit,
  picture: { readonly widthPx: number; readonly heightPx: number } | null,
  tapPx: number,
) {
  if (!picture) return null;
  const centre = { x: picture.widthPx / 2, y: picture.heightPx / 2 };
  const found = lensFrom(fit.straights, centre, Math.hypot(centre.x, centre.y), tapPx);
  return found && { lens: found.lens, deviation: found.deviation };
}

/**
 * Where the corners of a rectangle are that were marked in turn: the first at the origin, the second along x, the rest
 * above it, or below it where they were marked clockwise, so that the ground is not seen in a mirror.
 */
export function rectanglePlaces(
  marks: readonly { readonly at: Point }[],
  lengthM: Metres,
  widthM: Metres,
): Point[] {
  // The picture's y runs down: what turns counter-clockwise on it has a negative area.
  const w = ringArea(marks.slice(0, 4).map((m) => m.at)) < 0 ? widthM : -widthM;
  return [
    { x: 0, y: 0 },
    { x: lengthM, y: 0 },
    { x: lengthM, y: w },
    { x: 0, y: w },
  ];
}

function placesOf(job: Job, { marks, known }: MarksFit): Places | NoFit {
  const tape = tapeDeviation(job);
  switch (known.type) {
    case 'rectangle': {
      if (marks.length !== 4) return { kind: 'unusable' };
      const { lengthM: l, widthM: w } = known;
      const at = rectanglePlaces(marks, l, w);
      const covariance = nought(8);
      // Both ends of the length lie off by the same tape, and so do both of the width.
      for (const i of [2, 4]) for (const j of [2, 4]) covariance[i]![j] = tape(l) ** 2;
      for (const i of [5, 7]) for (const j of [5, 7]) covariance[i]![j] = tape(w) ** 2;
      return { at, covariance, checks: [], redundancy: 0 };
    }
    case 'points': {
      const missing = marks.findIndex((m) => !m.on);
      if (missing >= 0) return { kind: 'mark-without-place', mark: missing + 1 };
      const at = marks.map((m) => m.on!);
      const covariance = nought(2 * marks.length);
      const far = Math.max(...at.map((p) => distance(p, at[0]!)));
      for (let i = 0; i < covariance.length; i++) covariance[i]![i] = tape(far) ** 2 / 2;
      return { at, covariance, checks: [], redundancy: 0 };
    }
    case 'tapes': {
      const observations = known.tapes.map(
        ({ a, b, lengthM }): Observation => ({
          kind: 'distance',
          a,
          b,
          length: lengthM,
          deviation: tape(lengthM),
        }),
      );
      const figure = adjustFigure(sketchOf(marks, known.tapes), observations);
      if (figure.loose > 0) {
        const next = nextMeasure(figure, observations, tape, new Array(2 * marks.length).fill(0));
        return { kind: 'marks-loose', a: (next?.a ?? 0) + 1, b: (next?.b ?? 1) + 1 };
      }
      return {
        at: figure.points,
        covariance: figure.covariance,
        checks: tapeChecks(figure, known.tapes),
        redundancy: figure.redundancy,
      };
    }
  }
}

/** The marks as the photo shows them, y up, at about the size of what was taped: a start for their figure. */
function sketchOf(
  marks: readonly GroundMark[],
  tapes: ReadonlyArray<{ a: number; b: number; lengthM: number }>,
): Point[] {
  let known = 0;
  let seen = 0;
  for (const { a, b, lengthM } of tapes) {
    known += lengthM;
    seen += distance(marks[a]!.at, marks[b]!.at);
  }
  const scale = seen > 0 ? known / seen : 1;
  return marks.map(({ at }) => ({ x: at.x * scale, y: -at.y * scale }));
}

const tapeChecks = (
  figure: FigureFit,
  tapes: ReadonlyArray<{ a: number; b: number; lengthM: number }>,
): FitCheck[] =>
  tapes.map(({ a, b, lengthM }, i) => ({
    name: tr`tape from mark ${a + 1} to mark ${b + 1}`,
    knownM: lengthM,
    readM: lengthM + figure.observations[i]!.residual,
    offM: Math.abs(figure.observations[i]!.residual),
    standardised: figure.observations[i]!.standardised,
    suspect: figure.suspects.includes(i),
  }));

const nought = (n: number): number[][] => Array.from({ length: n }, () => new Array<number>(n).fill(0));
