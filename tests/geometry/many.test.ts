import { expect, test } from 'vitest';
import { type Ring, rectangleRing } from '../../geometry/index.ts';
import { made } from './made.ts';

/** Plans so full that the indexes are used which small ones do without; each area by hand. */

const square = (x: number, y: number, side: number): Ring =>
  rectangleRing({ x: x + side / 2, y: y + side / 2 }, side, side, 0);

test('23 by 23 zones between cuts that lean: those inside are parallelograms of 1 m by 1 m', () => {
  const cuts = Array.from({ length: 22 }, (_, i) => [
    // Up, leaning 0.02 to the metre, and across, level.
    [
      { x: i + 1 - 0.02, y: -1 },
      { x: i + 1 + 24 * 0.02, y: 24 },
    ],
    [
      { x: -1, y: i + 1 },
      { x: 24, y: i + 1 },
    ],
  ]).flat();
  const { zones, slabs } = made({
    slabs: [square(0, 0, 23)],
    cuts: cuts.map((path) => ({ slab: 0, path })),
    voids: [],
  });
  expect(zones.length).toBe(23 * 23);
  expect(slabs[0]!.netArea).toBeCloseTo(23 * 23, 9);
  const inside = zones.filter((z) => z.stretches.every(({ cause }) => cause.kind === 'cut'));
  expect(inside.length).toBe(21 * 21);
  for (const z of inside) {
    expect(z.netArea).toBeCloseTo(1, 9);
    // Two sides of 1 m, two of √(1² + 0.02²).
    expect(z.boundary).toBeCloseTo(2 + 2 * Math.hypot(1, 0.02), 9);
    expect(z.stretches.map(({ length }) => length.toFixed(6)).sort()).toEqual([
      '1.000000',
      '1.000000',
      '1.000200',
      '1.000200',
    ]);
  }
  // Of each row the zones at its ends are 1 m high, and wider or narrower by the lean at half their height.
  const first = zones.filter((z) =>
    z.stretches.some(({ cause }) => cause.kind === 'side' && cause.side === 3),
  );
  const byHand = Array.from({ length: 23 }, (_, k) => 1 + 0.02 * (k + 0.5)).sort();
  expect(first.map((z) => z.netArea.toFixed(9)).sort()).toEqual(byHand.map((a) => a.toFixed(9)));
});

test('400 pits, in each a post with a gap around it, and one slab over them all', () => {
  const voids = Array.from({ length: 400 }, (_, i) => {
    const [x, y] = [5 * (i % 20), 5 * Math.floor(i / 20)];
    return [square(x + 1, y + 1, 2), square(x + 1.5, y + 1.5, 1)];
  }).flat();
  const { zones, voids: taken } = made({ slabs: [square(0, 0, 100)], cuts: [], voids });
  expect(zones.length).toBe(1);
  // What lies within a pit is taken once.
  expect(zones[0]!.netArea).toBeCloseTo(100 * 100 - 400 * 4, 7);
  expect(zones[0]!.netRings.length).toBe(401);
  expect(taken.map(({ insideArea }) => insideArea.toFixed(9))).toEqual(
    voids.map((_, i) => (i % 2 === 0 ? 4 : 1).toFixed(9)),
  );
  const pits = zones[0]!.stretches.filter(({ cause }) => cause.kind === 'void');
  expect(pits.length).toBe(400);
  for (const { length, cause } of pits) {
    expect(length).toBeCloseTo(8, 9);
    expect(cause.kind === 'void' && cause.void % 2).toBe(0);
  }
});

test('slabs and pits within each other: what is left of each, and what lies over what', () => {
  const { zones, overlaps } = made({
    slabs: [square(0, 0, 9), square(2, 2, 5), square(4, 4, 1)],
    cuts: [],
    voids: [square(1, 1, 7), square(3, 3, 3)],
  });
  // The void of the first covers the second too, so that nothing is left of either but what lies outside.
  expect(zones.map((z) => z.faceArea)).toEqual([81, 25, 1]);
  expect(zones.map((z) => z.netArea)).toEqual([81 - 49, 0, 0]);
  expect(overlaps).toEqual([
    { a: 0, b: 1, area: 25 },
    { a: 0, b: 2, area: 1 },
    { a: 1, b: 2, area: 1 },
  ]);
});
