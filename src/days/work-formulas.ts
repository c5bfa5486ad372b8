import { tr } from '../words/tr.ts';
import { formula } from '../working/formula.ts';
import { commonPractice, type Source } from '../working/source.ts';

const rate: Source = { kind: 'derived', from: tr`amount by rate` };

/** Hours for a surface. */
export const surfaceHours = formula('h', 'h', 'A / p', { A: 'm²', p: 'm²/h' }, rate);

/** Hours to lay tape along edges and to take it off. */
export const maskingHours = formula('h', 'h', 'M / a + M / b', { M: 'm', a: 'm/h', b: 'm/h' }, rate);

/** Hours for one coat: edges cut in, the rest rolled, faces up brushed in bands as wide as the cut-in. */
export const coatHours = formula(
  'h',
  'h',
  'L / c + R / r + U / (c * w)',
  { L: 'm', c: 'm/h', R: 'm²', r: 'm²/h', U: 'm²', w: 'm' },
  rate,
);

/** A band's width in metres. */
export const bandMetres = formula('w', 'm', 'b / 1000', { b: 'mm' }, { kind: 'derived', from: tr`unit` });

/** Days of a crew, for what is left of a day after set-up, clean-up and travel, and no fewer than drying asks for. */
export const crewDays = formula(
  'D',
  '1',
  'max(ceil(W / (n * max(h - s - c - t, l))), q)',
  { W: 'h', n: '1', h: 'h', s: 'h', c: 'h', t: 'h', l: 'h', q: '1' },
  commonPractice,
);

/** Paid hours: the work, and what goes with each day for each person. */
export const paidHours = formula(
  'H',
  'h',
  'W + D * n * (s + c + t)',
  { W: 'h', D: '1', n: '1', s: 'h', c: 'h', t: 'h' },
  commonPractice,
);
