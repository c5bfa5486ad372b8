import type { Job } from '../../job/types.ts';
import type { Metres } from '../../units/types.ts';
import { tr } from '../../words/tr.ts';
import { found, type Quantity } from '../../working/quantity.ts';
import { measureValue } from '../measure-values.ts';

/** Standard deviation of a length by tape: its class as a limit of ±√3 deviations, and the reading; m. */
export function tapeDeviation(job: Job): (lengthM: Metres) => Metres {
  const { fixed, perMetre, reading } = tapeValues(job);
  return (lengthM) => {
    const limit = (fixed.value + perMetre.value * lengthM) / 1000;
    return Math.max(1e-6, Math.sqrt(limit ** 2 / 3 + (reading.value / 1000) ** 2));
  };
}

/** Standard deviation of a right angle set out by tape; rad. */
export const squareDeviation = (job: Job): number =>
  Math.max(1e-6, measureValue(job, 'measure.square').value / 1000);

/** The values that a tape's deviation comes from. */
export const tapeValues = (job: Job) => ({
  fixed: measureValue(job, 'measure.tape-fixed'),
  perMetre: measureValue(job, 'measure.tape-per-metre'),
  reading: measureValue(job, 'measure.reading'),
});

/** The law by which errors add up. */
export const law = {
  kind: 'published',
  title: tr`JCGM 100 (guide to the expression of uncertainty in measurement)`,
  edition: '2008',
  clause: '5.1.2',
} as const;

/** The deviation of a corner as a quantity with what it came from. */
export const cornerDeviation = (
  value: Metres,
  explanation: string,
  inputs: Readonly<Record<string, Quantity>>,
): Quantity => found(tr`deviation of a corner`, 'u', value, 'm', explanation, law, inputs);
