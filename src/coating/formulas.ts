import { formula } from '../working/formula.ts';
import { commonPractice, type Source } from '../working/source.ts';

const derived = (from: string): Source => ({ kind: 'derived', from });

/** The published rule is for paint as it comes; thinner leaves no film, which is arithmetic. */
const filmRule = derived(
  'dry film = wet film × volume solids (UFC 3-190-06, 16 January 2004, Procedure 13); thinner leaves no film',
);

/** Theoretical spreading rate of neat paint; 10 turns % and µm into m²/L. */
export const spreadingRate = formula(
  'S',
  'm²/L',
  '10 * VS / D',
  { VS: '%', D: 'µm' },
  derived('arithmetic: 1 L at 1 µm covers 1000 m²'),
);

/** Paint for a surface: area, texture and spreading rate, and the share that does not end as film. */
export const paintLitres = formula(
  'P',
  'L',
  'A * k / (S * (1 - L))',
  { A: 'm²', k: '1', S: 'm²/L', L: '1' },
  derived('litres = area / practical rate; practical rate = S (1 − L)'),
);

/** Thinner for a paint, T by volume of paint. */
export const thinnerLitres = formula(
  'W',
  'L',
  'P * T',
  { P: 'L', T: '1' },
  derived('thinner is given by volume of paint'),
);

/** A share of the finished mix as a share of the paint. */
export const thinningOfMix = formula(
  'T',
  '1',
  'x / (1 - x)',
  { x: '1' },
  derived('x of the mix is thinner, 1 − x is paint'),
);

/** A share of the paint is what T means already. */
export const thinningOfPaint = formula(
  'T',
  '1',
  'x',
  { x: '1' },
  derived('thinner is given by volume of paint'),
);

/** Wet film that dries to D, thinned by T. */
export const wetFilm = formula(
  'WFT',
  'µm',
  'D * (1 + T) / (VS / 100)',
  { D: 'µm', T: '1', VS: '%' },
  filmRule,
);

/** Dry film left by a wet film of thinned paint. */
export const dryFilm = formula(
  'DFT',
  'µm',
  'WFT * (VS / 100) / (1 + T)',
  { WFT: 'µm', VS: '%', T: '1' },
  filmRule,
);

/** Volume solids of thinned paint. */
export const thinnedSolids = formula(
  'VS',
  '%',
  'VS0 / (1 + T)',
  { VS0: '%', T: '1' },
  derived('arithmetic; contraction of the mix ignored'),
);

/** Acid for bare concrete. */
export const etchKilograms = formula('K', 'kg', 'A / e', { A: 'm²', e: 'm²/kg' }, commonPractice);

/** Water for the acid. */
export const etchWater = formula('H', 'L', 'K * w', { K: 'kg', w: 'L/kg' }, commonPractice);

/** Grip additive for the coat it goes into. */
export const additiveGrams = formula('G', 'g', 'P * d', { P: 'L', d: 'g/L' }, commonPractice);
