import { expect, test } from 'vitest';
import type { Reading } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab } from '../coating/scene.ts';

const read = (reading: Partial<Reading>) =>
  results(
    edited(oneSlab(), {
      type: 'add-reading',
      args: {
        id: 'r',
        at: '2026-03-14T09:00',
        airC: 22,
        humidityPct: 55,
        slabC: 24,
        windKmH: 5,
        ...reading,
      },
    }),
  ).verdicts[0]!;

// Margin 3 °C, 85 %, 7–35 °C: an engineer's bid specification, READ; 10 °C common practice, no source.
test.each([
  ['go', {}, /Nothing read stands against/],
  ['no', { airC: 20, humidityPct: 70, slabC: 17 }, /2.64 °C above the dew point/],
  ['no', { airC: 9, slabC: 14, humidityPct: 40 }, /would not film/],
  ['no', { airC: 30, slabC: 41 }, /dry before they wet it/],
  ['no', { airC: 20, humidityPct: 90, slabC: 25 }, /90 % humidity/],
  ['care', { airC: 30, slabC: 33, humidityPct: 30, windKmH: 15 }, /wet edge is short/],
] as const)('%s at %j', (go, reading, reason) => {
  const v = read(reading);
  expect(v.go).toBe(go);
  expect(v.reason).toMatch(reason);
});

test('recoat is never shorter than the label, and longer in cool damp air', () => {
  expect(read({}).recoats[0]!.hours.value).toBe(2);
  // 15 °C, 70 %, 5 km/h: 5.735 h, worked out elsewhere; common practice, no source.
  expect(read({ airC: 15, slabC: 15, humidityPct: 70 }).recoats[0]!.hours.value).toBeCloseTo(5.735, 2);
  // Where nothing may be coated, no recoat is promised; and no cold or wet reading is too odd to be shown.
  for (const odd of [
    { airC: 15, slabC: 11, humidityPct: 100 },
    { airC: -40, slabC: -30 },
    { airC: -20, slabC: 5 },
  ]) {
    expect(read(odd)).toMatchObject({ go: 'no', recoats: [] });
  }
});

test('a reading that no thermometer gives is refused', () => {
  expect(() => read({ humidityPct: 0 })).toThrow('must lie between 1 and 100');
});
