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

test('a void beside two that overlap is found where it lies, wherever any of them begins', () => {
  const box = (x: number, y: number, w: number, h: number) =>
    rectangleRing({ x: x + w / 2, y: y + h / 2 }, w, h, 0);
  const [upright, level, aside] = [box(1, 1, 1, 8), box(1.5, 1.2, 7.5, 0.8), box(4, 5, 1, 1)];
  const orders = [
    [upright, level, aside],
    [level, aside, upright],
    [aside, upright, level],
    [aside, level, upright],
  ];
  for (const voids of orders) {
    for (let turn = 0; turn < 4; turn++) {
      for (const backwards of [false, true]) {
        const turned = voids.map((ring) => {
          const r = [...ring.slice(turn), ...ring.slice(0, turn)];
          return backwards ? r.reverse() : r;
        });
        const { zones } = made({ slabs: [box(0, 0, 10, 10)], cuts: [], voids: turned });
        // 8 and 6 m² overlap in 0.5 by 0.8 m.
        expect(zones.map((z) => z.netArea.toFixed(9))).toEqual(['85.400000000']);
        expect(zones[0]!.netRings).toHaveLength(3);
      }
    }
  }
});

test('a round place of a kilometre in two zones: sums too large for numbers of 53 bits', () => {
  const sides = 1200;
  const angle = (2 * Math.PI) / sides;
  const corner = (k: number) => ({
    x: 500 * Math.cos((k + 0.5) * angle),
    y: 500 * Math.sin((k + 0.5) * angle),
  });
  const ring = Array.from({ length: sides }, (_, k) => corner(k));
  // From a corner to the one across: 401 sides lie beyond.
  const path = [corner(200), corner(-201)];
  const { zones, slabs } = made({ slabs: [ring], cuts: [{ slab: 0, path }], voids: [square(-3, -3, 6)] });
  const triangles = (n: number) => (n / 2) * 500 ** 2 * Math.sin(angle);
  const beyond = triangles(401) - (500 ** 2 * Math.sin(401 * angle)) / 2;
  expect(slabs[0]!.netArea).toBeCloseTo(triangles(sides) - 36, 5);
  const areas = zones.map((z) => z.netArea).sort((a, b) => a - b);
  expect(areas).toHaveLength(2);
  expect(areas[0]).toBeCloseTo(beyond, 5);
  expect(areas[1]).toBeCloseTo(triangles(sides) - beyond - 36, 5);
});
