import { expect, test } from 'vitest';
import {
  amountNumber,
  amountUnit,
  boughtNumber,
  boughtUnit,
  filmNumber,
  filmUnit,
  massNumber,
  massUnit,
  napText,
  smallMassNumber,
  smallMassUnit,
  upToHundredth,
} from '../../src/units/format.ts';

// 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959), 16 oz a pound, 1 mil = 25.4 µm. FROM MEMORY.

test('masses and films in metric and US customary units', () => {
  expect([massNumber(1, 'metric'), massUnit('metric')]).toEqual(['1.00', 'kg']);
  expect([massNumber(0.45359237 * 3, 'us'), massUnit('us')]).toEqual(['3.00', 'lb']);
  expect([smallMassNumber(93.4, 'metric'), smallMassUnit('metric')]).toEqual(['93', 'g']);
  expect([smallMassNumber((453.59237 * 5) / 16, 'us'), smallMassUnit('us')]).toEqual(['5.0', 'oz']);
  expect([filmNumber(131.4, 'metric'), filmUnit('metric')]).toEqual(['131', 'µm']);
  expect([filmNumber(5 * 25.4, 'us'), filmUnit('us')]).toEqual(['5.0', 'mil']);
});

// Sleeves are sold by fractions of an inch: common practice, no source.
test.each([
  [6, '1/4 in'],
  [9.5, '3/8 in'],
  [12, '1/2 in'],
  [5, '3/16 in'],
  [18, '3/4 in'],
  [19, '3/4 in'],
  [25.4, '1 in'],
  [32, '1 1/4 in'],
  [0.3, '1/16 in'],
])('a nap of %d mm is %s', (mm, text) => {
  expect(napText(mm, 'us')).toBe(text);
  expect(napText(mm, 'metric')).toBe(`${mm} mm`);
});

test('what surfaces take goes by its unit', () => {
  expect(amountNumber(1.231, 'kg', 'metric')).toBe('1.23');
  expect(amountNumber(0.45359237, 'kg', 'us')).toBe('1.00');
  expect(amountNumber(3.785411784, 'L', 'us')).toBe('1.00');
  expect(amountNumber(92.6, 'g', 'metric')).toBe('93');
  expect(amountNumber(2, 'pieces', 'us')).toBe('2');
  expect(['L', 'kg', 'g', 'rolls'].map((u) => amountUnit(u, 'us'))).toEqual(['US gal', 'lb', 'oz', 'rolls']);
  expect(['L', 'kg', 'g'].map((u) => amountUnit(u, 'metric'))).toEqual(['L', 'kg', 'g']);
});

test('what is bought by weight or number is rounded up, and stays in the unit of its price', () => {
  expect([0.381, 0.38, 0.0001, 0].map(upToHundredth)).toEqual([0.39, 0.38, 0.01, 0]);
  for (const units of ['metric', 'us'] as const) {
    expect(boughtNumber(0.381, 'kg', units)).toBe('0.39');
    expect(boughtNumber(0.4, 'g', units)).toBe('1');
    expect(boughtNumber(3, 'pieces', units)).toBe('3');
    expect(boughtUnit('kg', units, 0.39)).toBe('kg');
  }
  expect(boughtNumber(3.785411784, 'L', 'us')).toBe('1.00');
  expect([boughtUnit('L', 'us', 1), boughtUnit('L', 'metric', 1)]).toEqual(['US gal', 'L']);
  expect([1, 2].map((n) => boughtUnit('rolls', 'metric', n))).toEqual(['roll', 'rolls']);
  expect([1, 2].map((n) => boughtUnit('pieces', 'us', n))).toEqual(['piece', 'pieces']);
});
