import { type Frame, type FrameStep, type Matrix3, matrixStep, toFrame } from '../../../geometry/index.ts';
import type { Fit, Id, Job, Sheet } from '../../job/types.ts';
import { tr } from '../../words/tr.ts';
import { measureValue } from '../measure-values.ts';
import { solveMarks } from './marks-fit.ts';
import { solveDrawn, solveGeoreferenced, solveMetric } from './plain-fits.ts';
import { solveScale } from './scale-fit.ts';
import { carriedErrors, type FitContext, type NoFit, type SolvedFit } from './solved-fit.ts';
import { cornerDeviation } from './tape.ts';

/** The last answer for a sheet, and what it was worked out from. */
interface Known {
  readonly values: Job['values'];
  readonly source: Sheet | null;
  readonly answer: SolvedFit | NoFit;
}

const answers = new WeakMap<Sheet, Known>();

/** A sheet's way to the ground, or why it has none yet. Remembered by the sheet's identity. */
export function solveFit(job: Job, sheet: Sheet): SolvedFit | NoFit {
  const { fit } = sheet;
  if (!fit) return { kind: 'none' };
  const source = fit.kind === 'straightened' ? (job.sheets[fit.sheetId] ?? null) : null;
  const known = answers.get(sheet);
  if (known && known.values === job.values && known.source === source) return known.answer;
  const solved = (id: Id) => solvedFit(job, job.sheets[id]);
  const answer = solve(fit, { job, sheet, solved });
  answers.set(sheet, { values: job.values, source, answer });
  return answer;
}

/** The same, null when there is none. */
export function solvedFit(job: Job, sheet: Sheet | undefined): SolvedFit | null {
  const answer = sheet && solveFit(job, sheet);
  return answer && 'frame' in answer ? answer : null;
}

function solve(fit: Fit, context: FitContext): SolvedFit | NoFit {
  switch (fit.kind) {
    case 'metric':
      return solveMetric(context);
    case 'scale':
      return solveScale(fit, context);
    case 'drawing':
    case 'page':
      return solveDrawn(fit, context);
    case 'marks':
      return solveMarks(fit, context);
    case 'georeferenced':
      return solveGeoreferenced(fit, context);
    case 'straightened':
      return solveStraightened(fit, context);
  }
}

/** Through the photo it was made from, by that photo's own fit: a better one there re-measures what was traced here. */
function solveStraightened(
  fit: Extract<Fit, { kind: 'straightened' }>,
  { job, solved }: FitContext,
): SolvedFit | NoFit {
  // Only a photo's own marks say where its straight picture lies.
  const source = job.sheets[fit.sheetId]?.fit?.kind === 'marks' ? solved(fit.sheetId) : null;
  if (!source) return { kind: 'none' };
  const step = matrixStep(fit.toPhoto as unknown as Matrix3);
  if (!step) return { kind: 'unusable' };
  const lens: FrameStep[] = fit.lens ? [{ kind: 'distort', lens: fit.lens }] : [];
  const toPhoto: Frame = { steps: [step, ...lens] };
  const frame: Frame = { steps: [...toPhoto.steps, ...source.frame.steps] };
  const tap = measureValue(job, 'measure.tap');
  const own = carriedErrors(frame, tap.value, 0.5);
  const at = toFrame(frame, { x: 0, y: 0 });
  return {
    frame,
    errors: {
      // A tap here is a tap on the photo, or coarser where this picture is.
      own: (ground) => {
        const [here, there] = [own(ground), source.errors.own(ground)];
        return here[0] + here[2] > there[0] + there[2] ? here : there;
      },
      shared: source.errors.shared,
      point: cornerDeviation(
        Math.max(source.errors.point.value, Math.sqrt(own(at)[0])),
        tr`as on the photo this picture was made from`,
        { p: tap },
      ),
      together: source.errors.together,
    },
    checks: source.checks,
    redundancy: source.redundancy,
    stretch: 1,
    sees: (p) => source.sees(toFrame(toPhoto, p)),
  };
}
