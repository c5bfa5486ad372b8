import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { coatingJson } from '../src/exports/coating-json.ts';
import { orderJson } from '../src/exports/order-json.ts';
import { quoteJson } from '../src/exports/quote-json.ts';
import { takeoffJson } from '../src/exports/takeoff-json.ts';
import { readJobFile, writeJobFile } from '../src/job/file.ts';
import type { JobFile } from '../src/job/types.ts';
import { results } from '../src/results.ts';

const DEMOS = ['workshop', 'yard', 'patio-photo', 'lane'];
const read = (demo: string, name: string) =>
  readFileSync(fileURLToPath(new URL(`../demo-plans/${demo}/${name}`, import.meta.url)), 'utf8');

function open(demo: string): JobFile {
  const file = readJobFile(read(demo, 'job.json'), 'job.json');
  if (!file.ok) throw new Error(JSON.stringify(file.problem));
  return file.value;
}

/** Equal in everything, numbers to 1e-9 of their size: sums may be taken in another order one day. */
function same(actual: unknown, expected: unknown, path: string): void {
  if (typeof expected === 'number' && typeof actual === 'number') {
    expect(Math.abs(actual - expected), path).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
  } else if (expected && typeof expected === 'object' && actual && typeof actual === 'object') {
    expect(Object.keys(actual), path).toEqual(Object.keys(expected));
    for (const [key, value] of Object.entries(expected)) {
      same((actual as Record<string, unknown>)[key], value, `${path}.${key}`);
    }
  } else expect(actual, path).toBe(expected);
}

test.each(DEMOS)('%s comes to what it came to', (demo) => {
  const r = results(open(demo).job);
  const expected = JSON.parse(read(demo, 'expected.json'));
  same(
    JSON.parse(
      JSON.stringify({
        takeoff: takeoffJson(r),
        coating: coatingJson(r),
        order: orderJson(r),
        quote: quoteJson(r),
      }),
    ),
    expected,
    demo,
  );
});

test.each(DEMOS)('%s is the same bytes when it is saved again, and says that it is invented', (demo) => {
  expect(writeJobFile(open(demo))).toBe(read(demo, 'job.json'));
  expect(open(demo).job.note).toContain('Invented data');
});

test('the workshop by hand', () => {
  // Lengths as lettered on the plan. The courtyard's arc goes through (18,12), (17.2,14.6), (14,15.5): its circle and
  // segment by the chord and the inscribed angle, apart from the program's way through the centre.
  const { takeoff } = results(open('workshop').job);
  const net = (name: string) => takeoff.zones.find((z) => z.name === name)!.netArea.value;
  expect(net('Vehicle bay')).toBeCloseTo(6 * 6.5, 9);
  expect(net('Forecourt drive')).toBeCloseTo(8 * 7 - 5.2 * 0.2, 9);
  expect(net('Forecourt walk')).toBeCloseTo(4 * 7, 9);
  expect(net('Ramp')).toBeCloseTo(6 * 1.5 * Math.sqrt(1 + 1 / 144), 9);
  const chord = Math.hypot(4, 3.5);
  const [p, q] = [Math.hypot(0.8, 2.6), Math.hypot(3.2, 0.9)];
  const inscribed = Math.acos((p * p + q * q - chord * chord) / (2 * p * q));
  const r = chord / (2 * Math.sin(inscribed));
  const sweep = 2 * Math.PI - 2 * inscribed;
  const segment = (r * r * (sweep - Math.sin(sweep))) / 2;
  const straight = 10 * 6.5 - (4 * 3.5) / 2;
  expect(net('Courtyard')).toBeCloseTo(straight + segment - 1.2 * 1.2 - 4 * Math.PI * 0.01, 9);
});

test('the yard by hand', () => {
  const { takeoff, coating } = results(open('yard').job);
  const [zone] = takeoff.zones;
  const area = 9.6 * 4.25 + 6.15 * 2.8 - 1.1 * 0.8 - Math.PI * 0.225 ** 2;
  expect(zone!.netArea.value).toBeCloseTo(area, 9);
  // Painted before: not etched, not thinned; heavy broom 1.5 and 1.3, 10 % loss, 10 × 42 / 50 = 8.4 m²/L.
  expect(coating.zones[0]!.etch).toBeNull();
  expect(coating.paints[0]!.quantity.value).toBeCloseTo((area * (1.5 + 1.3)) / (8.4 * 0.9), 9);
});

test('the photo says how far its scale can be believed, and how wrong it would be', () => {
  const { takeoff, remarks } = results(open('patio-photo').job);
  expect(remarks.map((r) => r.sentence).join()).toContain(
    '4 corners lie more than 0.7 m from the known length',
  );
  // The patio was drawn 3.60 m by 2.70 m; one scale on a photo taken at an angle is far off.
  expect(takeoff.zones[0]!.netArea.value).toBeLessThan(0.7 * 3.6 * 2.7);
});
