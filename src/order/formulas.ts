import { tr } from '../words/tr.ts';
import { formula } from '../working/formula.ts';
import { commonPractice, type Source } from '../working/source.ts';

/** Litres over all zones by the rule in force, and what is kept back, labelled, for touching up. */
export const orderedLitres = formula('N', 'L', 'Q + r', { Q: 'L', r: 'L' }, commonPractice);

/** The plain rule: so many per cent on top. */
export const percentLitres = formula('Q', 'L', 'P * (1 + x / 100)', { P: 'L', x: '%' }, commonPractice);

const lognormal: Source = {
  kind: 'derived',
  from: tr`a sum of lognormal amounts, taken as lognormal with the same mean and variance (Fenton–Wilkinson)`,
};

/** Litres that are enough but for a chance c, z deviations up. */
export const chanceLitres = formula(
  'Q',
  'L',
  'u * exp(m + z * s)',
  { u: 'L', m: '1', z: '1', s: '1' },
  lognormal,
);

/** The deviation of the logarithm from mean and variance. */
export const logSpread = formula('s', '1', 'sqrt(log(1 + V / E^2))', { V: 'L²', E: 'L' }, lognormal);

/** The middle of the logarithm from the mean. */
export const logMiddle = formula('m', '1', 'log(E / u) - s^2 / 2', { E: 'L', u: 'L', s: '1' }, lognormal);

/** Rolls of tape for a masked edge with its overlaps. */
export const tapeRolls = formula(
  'n',
  '1',
  'ceil(M * (1 + o / 100) / R)',
  { M: 'm', o: '%', R: 'm' },
  commonPractice,
);

/** Share of a sleeve's life that one coat of one zone uses. */
export const sleeveLives = formula('u', '1', 'A / l', { A: 'm²', l: 'm²' }, commonPractice);

/** Whole sleeves. */
export const wholeSleeves = formula('n', '1', 'ceil(u)', { u: '1' }, commonPractice);
