import { type Frame, type FrameStep, type Matrix3, matrixStep } from '../../../geometry/index.ts';
import type { Fit } from '../../job/types.ts';
import { tr } from '../../words/tr.ts';
import { measureValue } from '../measure-values.ts';
import { type FitContext, type NoFit, type SolvedFit, seesAll } from './solved-fit.ts';
import { cornerDeviation, tapeDeviation, tapeValues } from './tape.ts';

const nothingChecked = { checks: [], redundancy: 0, stretch: 1, sees: seesAll } as const;

/** Each coordinate errs alike everywhere. */
const even = (deviation: number) => () => [deviation ** 2, 0, deviation ** 2] as const;

/** A side of usual length, for the tape's share in a corner of entered lengths. */
const TYPICAL_SIDE_M = 5;

/** Lengths were typed: the sheet is the ground. */
export function solveMetric({ job }: FitContext): SolvedFit {
  const { fixed, perMetre, reading } = tapeValues(job);
  const deviation = tapeDeviation(job)(TYPICAL_SIDE_M) / Math.SQRT2;
  return {
    ...nothingChecked,
    frame: { steps: [] },
    errors: {
      own: even(deviation),
      shared: null,
      point: cornerDeviation(
        deviation,
        tr`a side of 5 m by tape, the limit taken as ±√3 deviations, shared between its two ends`,
        { a: fixed, b: perMetre, r: reading },
      ),
      together: tr`lengths are entered as they were taped`,
    },
  };
}

/** Points per metre of paper. */
const POINT_M = 0.0254 / 72;

/** A drawing in its own units, or a page at 1 : ratio; what was built differs a little from either. */
export function solveDrawn(
  fit: Extract<Fit, { kind: 'drawing' | 'page' }>,
  { job, sheet }: FitContext,
): SolvedFit | NoFit {
  const scale = fit.kind === 'drawing' ? fit.metresPerUnit : fit.ratio * POINT_M;
  const frame = upright(scale, sheet.picture?.heightPx ?? 0);
  if (!frame) return { kind: 'unusable' };
  const built = measureValue(job, 'measure.as-built');
  const tap = measureValue(job, 'measure.tap-page');
  const tapped = fit.kind === 'page' ? tap.value * scale : 0;
  const deviation = Math.hypot(built.value / 1000, tapped);
  return {
    ...nothingChecked,
    frame,
    errors: {
      own: even(deviation),
      shared: null,
      point:
        fit.kind === 'page'
          ? cornerDeviation(deviation, tr`what was built against what was drawn, and the tap on the page`, {
              b: built,
              p: tap,
            })
          : cornerDeviation(deviation, tr`what was built against what was drawn`, { b: built }),
      together: tr`the scale is the drawing’s own`,
    },
  };
}

/** A mirrored scale: pictures have y down, the ground's origin is their lower left. */
function upright(scale: number, height: number): Frame | null {
  const matrix: Matrix3 = [scale, 0, 0, 0, -scale, scale * height, 0, 0, 1];
  const step: FrameStep | null = matrixStep(matrix);
  return step && { steps: [step] };
}

/** Metres east and north of a place, as walked or read off a map. */
export function solveGeoreferenced(
  fit: Extract<Fit, { kind: 'georeferenced' }>,
  { job }: FitContext,
): SolvedFit {
  const usual = measureValue(job, fit.from === 'walk' ? 'measure.walk' : 'measure.map');
  const deviation = fit.deviationM ?? usual.value;
  const words = fit.from === 'walk' ? tr`a point recorded on a walk` : tr`a point read off a map`;
  return {
    ...nothingChecked,
    frame: { steps: [] },
    errors: {
      own: even(deviation),
      shared: null,
      point: cornerDeviation(deviation, words, fit.deviationM === null ? { w: usual } : {}),
      together: tr`the ellipsoid of WGS 84 is exact`,
    },
  };
}
