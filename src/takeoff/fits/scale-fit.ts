import { fitScale, type KnownLine, type Matrix3, matrixStep, type Point } from '../../../geometry/index.ts';
import type { Fit } from '../../job/types.ts';
import { tr } from '../../words/tr.ts';
import { measureValue } from '../measure-values.ts';
import { carriedErrors, type FitContext, type NoFit, type SolvedFit, seesAll } from './solved-fit.ts';
import { cornerDeviation, tapeDeviation } from './tape.ts';

/** Scale from known lengths: one for all directions, or two on a stretched scan. */
export function solveScale(
  fit: Extract<Fit, { kind: 'scale' }>,
  { job, sheet }: FitContext,
): SolvedFit | NoFit {
  const tap = measureValue(job, 'measure.tap');
  const tape = tapeDeviation(job);
  const lines = fit.lengths.map(
    ({ a, b, lengthM }): KnownLine => ({
      dx: b.x - a.x,
      dy: b.y - a.y,
      length: lengthM,
      deviation: tape(lengthM),
      // A tap at both ends.
      readDeviation: tap.value * Math.SQRT2,
    }),
  );
  const solved = fitScale(lines, fit.stretched === true);
  if (!solved) return { kind: 'unusable' };
  const both = fit.stretched ? solved : fitScale(lines, true);
  const height = sheet.picture?.heightPx ?? 0;
  // Pictures have y down: mirror, and put the ground's origin at the picture's lower left.
  const matrix: Matrix3 = [solved.x, 0, 0, 0, -solved.y, solved.y * height, 0, 0, 1];
  const step = matrixStep(matrix);
  if (!step) return { kind: 'unusable' };
  const frame = { steps: [step] };
  const [xx, xy, yy] = solved.covariance;
  const alike = !fit.stretched;
  return {
    frame,
    errors: {
      own: carriedErrors(frame, tap.value, 1),
      shared: {
        covariance: alike
          ? [[xx]]
          : [
              [xx, xy],
              [xy, yy],
            ],
        slopes: ({ x, y }: Point) =>
          alike
            ? [[x / solved.x], [y / solved.y]]
            : [
                [x / solved.x, 0],
                [0, y / solved.y],
              ],
      },
      point: cornerDeviation(
        (tap.value * (solved.x + solved.y)) / 2,
        tr`the tap, in pixels, by the length of a pixel on the ground`,
        { p: tap },
      ),
      together: tr`the scale, from known lengths by tape between two taps each`,
    },
    checks: fit.lengths.map(({ lengthM }, i) => ({
      name: tr`known length ${i + 1}`,
      knownM: lengthM,
      readM: solved.read[i]!,
      offM: Math.abs(solved.read[i]! - lengthM),
      standardised: solved.standardised[i]!,
      suspect: solved.suspects.includes(i),
    })),
    redundancy: solved.redundancy,
    stretch: stretchOf(both, solved.squares),
    sees: seesAll,
  };
}

/** Two scales are worth a word when they fit far better and differ: a chi-squared of one in a thousand is 10.8. */
function stretchOf(both: ReturnType<typeof fitScale>, squares: number): number {
  if (!both || both.redundancy < 1) return 1;
  return squares - both.squares > 10.8 && both.squares < 10.8 * (1 + both.redundancy) ? both.x / both.y : 1;
}
