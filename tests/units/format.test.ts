import { expect, test } from 'vitest';
import {
  amountNumber,
  amountUnit,
  boughtAmount,
  filmNumber,
  filmUnit,
  massNumber,
  massUnit,
  napText,
  smallMassNumber,
  smallMassUnit,
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

test('amounts go by their unit; what is bought by weight is rounded up, so that a little is not nothing', () => {
  expect(boughtAmount(0.381)).toBe(0.39);
  expect(boughtAmount(0.38)).toBe(0.38);
  expect(boughtAmount(0.0001)).toBe(0.01);
  expect(boughtAmount(0)).toBe(0);
  expect(amountNumber(0.381, 'kg', 'metric')).toBe('0.39');
  expect(amountNumber(3.785411784, 'L', 'us')).toBe('1.00');
  expect(amountNumber(92.6, 'g', 'metric')).toBe('93');
  expect(amountNumber(2, 'pieces', 'us')).toBe('2');
  expect(['L', 'kg', 'g', 'rolls'].map((u) => amountUnit(u, 'us'))).toEqual(['US gal', 'lb', 'oz', 'rolls']);
  expect(amountUnit('rolls', 'metric', 1)).toBe('roll');
  expect(amountUnit('pieces', 'metric', 1)).toBe('piece');
  expect(amountUnit('kg', 'metric', 1)).toBe('kg');
});
