import { expect, test } from 'vitest';
import { sentence } from '../../src/problem.ts';
import { lengthText } from '../../src/units/format.ts';
import { parseLength } from '../../src/units/length.ts';

// 1 ft = 0.3048 m and 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). FROM MEMORY.
test.each([
  ['3.45', 3.45],
  ['3,45', 3.45],
  ['3450mm', 3.45],
  ['3450 mm', 3.45],
  ['345 cm', 3.45],
  ['.5', 0.5],
  ['11\'4"', 11 * 0.3048 + 4 * 0.0254],
  ['11 ft 4 in', 11 * 0.3048 + 4 * 0.0254],
  ['11′ 4″', 11 * 0.3048 + 4 * 0.0254],
  ["11' 4", 11 * 0.3048 + 4 * 0.0254],
  ['11\'-4"', 11 * 0.3048 + 4 * 0.0254],
  ['11\' 4 1/2"', 11 * 0.3048 + 4.5 * 0.0254],
  ['7 1/2 in', 7.5 * 0.0254],
  ['3/4"', 0.75 * 0.0254],
  ['12 feet', 12 * 0.3048],
])('%s is %f m', (text, metres) => {
  const length = parseLength(text);
  expect(length.ok && length.value).toBeCloseTo(metres, 12);
});

test('a bare number is in the unit asked for', () => {
  const length = parseLength('10', 'ft');
  expect(length.ok && length.value).toBeCloseTo(3.048, 12);
});

test.each(['', 'abc', '3.4.5', '4 m 2 m', '1 2 3', '5 kg', '-3', '0', '1/0', '1e9', '4" 3\''])(
  '%j is refused with a sentence',
  (text) => {
    const length = parseLength(text);
    expect(length.ok).toBe(false);
    if (!length.ok) expect(sentence(length.problem)).toMatch(/length/);
  },
);

test('feet and inches are written to a quarter inch', () => {
  expect(lengthText(11 * 0.3048 + 4.5 * 0.0254, 'us')).toBe('11\' 4 1/2"');
  expect(lengthText(0.3048 - 0.0001, 'us')).toBe('1\' 0"');
  expect(lengthText(3.45, 'metric')).toBe('3.45 m');
});
