import { formula } from '../working/formula.ts';
import { commonPractice } from '../working/source.ts';

/** Litres over all zones and what is kept back, labelled, for touching up. */
export const orderedLitres = formula('N', 'L', 'P + r', { P: 'L', r: 'L' }, commonPractice);
