import { describe, expect, test } from 'vitest';
import * as formulas from '../../src/coating/formulas.ts';
import { slopeFactor } from '../../src/takeoff/formulas.ts';
import { lengthNumber, volumeNumber } from '../../src/units/format.ts';
import type { Formula } from '../../src/working/formula.ts';

/** Formula, values, result, tolerance, source and status. */
type Check = readonly [Formula, Readonly<Record<string, number>>, number, number, string];

/*
 * Results worked out by two independent programs before this one was written; where a published example exists it
 * is named. DERIVED: arithmetic. READ: seen in the source.
 */
const CHECKS: readonly Check[] = [
  [formulas.spreadingRate, { VS: 45, D: 50 }, 9, 1e-9, 'S = 10 VS / DFT. DERIVED'],
  [
    formulas.spreadingRate,
    { VS: 65, D: 125 },
    5.2,
    1e-9,
    'the same example in an uploaded estimating sheet. READ',
  ],
  [formulas.spreadingRate, { VS: 28, D: 18 }, 15.5556, 1e-4, 'S = 10 VS / DFT. DERIVED'],
  [formulas.wetFilm, { D: 50, VS: 45, T: 0 }, 111.111, 1e-3, 'UFC 3-190-06 (2004), Procedure 13. READ'],
  [formulas.wetFilm, { D: 50, VS: 45, T: 0.25 }, 138.889, 1e-3, 'the same with thinner. DERIVED'],
  [formulas.dryFilm, { WFT: 8, VS: 35, T: 0.1 }, 2.54545, 1e-4, 'the same, in mil. DERIVED'],
  [formulas.dryFilm, { WFT: 125, VS: 40, T: 0 }, 50, 1e-9, 'UFC 3-190-06 (2004), Procedure 13. READ'],
  [formulas.paintLitres, { A: 100, S: 9, L: 0.05, k: 1.2 }, 14.0351, 1e-4, 'V = A k / (S (1 − L)). DERIVED'],
  [
    formulas.paintLitres,
    { A: 100, S: 100, L: 0.3, k: 1 },
    100 / 70,
    1e-9,
    'glossary of a corrosion site: 100 at 30 % loss is 70. READ',
  ],
  [formulas.thinnedSolids, { VS0: 45, T: 0.25 }, 36, 1e-9, "VS' = VS / (1 + T). DERIVED"],
  [formulas.thinnedSolids, { VS0: 45, T: 0.1 }, 40.9091, 1e-4, "VS' = VS / (1 + T). DERIVED"],
  [formulas.thinnedSolids, { VS0: 40, T: 0.3 }, 30.7692, 1e-4, "VS' = VS / (1 + T). DERIVED"],
  [formulas.thinningOfMix, { x: 0.25 }, 0.333333, 1e-6, 'T = x / (1 − x). DERIVED'],
  [formulas.thinningOfMix, { x: 0.1 }, 0.111111, 1e-6, 'T = x / (1 − x). DERIVED'],
  [formulas.thinningOfPaint, { x: 0.25 }, 0.25, 0, 'a share of the paint is T. DERIVED'],
  [
    formulas.thinnerLitres,
    { P: 8, T: 0.125 },
    1,
    1e-12,
    'US Army TM 43-0139 table 3-2: 1 pint of reducer in 1 gallon, 8 pints. READ',
  ],
  [formulas.etchKilograms, { A: 100, e: 40 }, 2.5, 1e-9, 'common practice, no source'],
  [formulas.etchKilograms, { A: 62, e: 40 }, 1.55, 1e-9, 'common practice, no source'],
  [formulas.etchWater, { K: 2.5, w: 10 }, 25, 1e-9, 'common practice, no source'],
  [formulas.etchWater, { K: 1.55, w: 10 }, 15.5, 1e-9, 'common practice, no source'],
  [formulas.additiveGrams, { P: 14.0351, d: 20 }, 280.7, 0.01, 'common practice, no source'],
  [formulas.additiveGrams, { P: 12.5, d: 20 }, 250, 1e-9, 'common practice, no source'],
  [slopeFactor, { g: 0.125 }, 1.007782, 1e-6, 'right triangle. DERIVED'],
  [slopeFactor, { g: 0.25 }, 1.030776, 1e-6, 'right triangle. DERIVED'],
  [slopeFactor, { g: 0.07143 }, 1.002548, 1e-6, 'right triangle. DERIVED'],
  [
    slopeFactor,
    { g: 1 / 12 },
    1.0034662148993578,
    1e-12,
    'gradient table. COMPUTED, no published table read',
  ],
];

describe('formulas against worked values', () => {
  test.each(
    CHECKS.map((c) => [`${c[0].symbol} = ${c[0].text} at ${JSON.stringify(c[1])}: ${c[4]}`, c] as const),
  )('%s', (_name, [formula, values, expected, tolerance]) => {
    expect(Math.abs(formula.evaluate(values) - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe('US customary', () => {
  test('9 m²/L is 366.7125 ft²/US gal', () => {
    // 1 m²/L = 40.7458 ft²/US gal: arithmetic from 1 ft = 0.3048 m and 1 US gal = 3.785411784 L. DERIVED.
    const ft2 = 9 / (Number(lengthNumber(0.3048, 'us', 12)) * 0.3048) ** 2;
    const gallons = 1 / 3.785411784;
    expect(ft2 / gallons).toBeCloseTo(366.7125, 3);
    expect(volumeNumber(3.785411784, 'us')).toBe('1.00');
  });

  test('100 % solids at 1 mil: 1604 ft² a gallon', () => {
    // 231 in³ / 0.001 in / 144 = 1604.17 ft². DERIVED; 1604 READ in several estimating sheets.
    const S = formulas.spreadingRate.evaluate({ VS: 100, D: 25.4 });
    expect((S * 3.785411784) / 0.3048 ** 2).toBeCloseTo(1604.1667, 3);
  });
});
