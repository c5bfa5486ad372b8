import {
  areaDeviation,
  type Deviations,
  lengthDeviation,
  type Plan,
  type PointErrors,
  type Stretch,
  type Zone,
} from '../../geometry/index.ts';
import type { Job, Slab } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { derive, found, type Quantity } from '../working/quantity.ts';
import { planErrors, type SolvedFit } from './fits/solved-fit.ts';
import { law } from './fits/tape.ts';
import { figureErrors } from './fits/tape-figure.ts';
import { areaUncertainty, lengthUncertainty } from './formulas.ts';

/** How well the points of slabs are known. */
export interface GroupErrors {
  readonly errors: PointErrors;
  /** Standard deviation of each coordinate of a corner by itself. */
  readonly point: Quantity;
  /** What moves all points together, in words. */
  readonly together: string;
}

/** Errors of the points of some slabs of one sheet: as its fit says, or as tapes between their corners do. */
export function groupErrors(job: Job, fit: SolvedFit, slabs: readonly Slab[], metric: boolean): GroupErrors {
  const plain = planErrors(fit.errors);
  const { point, together } = fit.errors;
  const taped = metric ? figureErrors(job, slabs, plain.own) : null;
  return taped
    ? { errors: taped, point, together: tr`the figure that the tapes make, adjusted by least squares` }
    : { errors: plain, point, together };
}

const byThemselves = (value: number, unit: string, point: Quantity): Quantity =>
  found(
    tr`from the corners by themselves`,
    'P',
    value,
    unit,
    tr`each corner off by itself; what moves with it added up`,
    law,
    { u: point },
  );

const allTogether = (value: number, unit: string, together: string): Quantity =>
  found(tr`from what moves all corners together`, 'F', value, unit, together, law);

/** Standard uncertainty of a zone's net area: points, what moves them together, and what the grid may have bent; m². */
export function areaUncertaintyOf(plan: Plan, zone: Zone, group: GroupErrors, slope: Quantity): Quantity {
  const d: Deviations = areaDeviation(plan, [zone], group.errors);
  return derive(tr`standard uncertainty of the net area`, areaUncertainty, {
    P: byThemselves(d.own * slope.value, 'm²', group.point),
    F: allTogether(d.shared * slope.value, 'm²', group.together),
    g: found(
      tr`from the grid`,
      'g',
      zone.bentArea * slope.value,
      'm²',
      tr`most that lines bent on the grid of 0.061 mm can come to`,
      {
        kind: 'derived',
        from: tr`two cells along each edge where lines were brought together`,
      },
    ),
  });
}

/** Standard uncertainty of the length of some of a zone's stretches, m. */
export function lengthUncertaintyOf(
  plan: Plan,
  zone: Zone,
  stretches: readonly Stretch[],
  group: GroupErrors,
  length: Quantity,
): Quantity {
  const d = lengthDeviation(plan, zone, stretches, group.errors);
  return derive(tr`standard uncertainty of the ${length.name}`, lengthUncertainty, {
    P: byThemselves(d.own, 'm', group.point),
    F: allTogether(d.shared, 'm', group.together),
  });
}

/** Normal deviates that 95 in 100 stay within. */
export const WITHIN_95 = 1.96;
