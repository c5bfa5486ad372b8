import highsLoader from 'highs';
import { describe, expect, test } from 'vitest';
import type { Pack } from '../../src/job/types.ts';
import { cheapestPacks } from '../../src/order/packs.ts';
import { randomNumbers } from '../random/numbers.ts';

describe('cheapest whole packs', () => {
  // F36 of the researched values: packs 15 L 200, 10 L 150, 4 L 70, 1 L 25 (invented prices). Common practice, no source;
  // answers recomputed by whoever gathered them.
  const offers: Pack[] = [
    { sizeL: 15, priceCents: 20000 },
    { sizeL: 10, priceCents: 15000 },
    { sizeL: 4, priceCents: 7000 },
    { sizeL: 1, priceCents: 2500 },
  ];
  test.each([
    [20.3, 32000, 21],
    [11.2, 20000, 12],
  ])('%f L costs %i cents in %i L', (need, cost, bought) => {
    expect(cheapestPacks(need, offers)).toMatchObject({ costCents: cost, boughtL: bought });
  });

  test('summed before packing: 11.2 and 9.1 L apart cost more than 20.3 L together', () => {
    const apart = cheapestPacks(11.2, offers)!.costCents! + cheapestPacks(9.1, offers)!.costCents!;
    expect(apart).toBe(35000);
    expect(cheapestPacks(20.3, offers)!.costCents).toBe(32000);
  });

  test('2,000 random orders: the same cost as a mixed-integer solver every time (HiGHS 1)', async () => {
    const highs = await highsLoader();
    const random = randomNumbers(36);
    const sizes = [0.5, 0.946, 1, 2, 2.5, 3.785, 4, 5, 10, 15, 18.93, 20];
    for (let i = 0; i < 2000; i++) {
      const packs: Pack[] = sizes
        .filter(() => random() < 0.4)
        .map((sizeL) => ({ sizeL, priceCents: Math.round(sizeL ** (0.7 + 0.3 * random()) * 1000) }));
      if (packs.length === 0) continue;
      const need = Math.round(random() ** 2 * 90_000 + 1) / 1000;
      const ours = cheapestPacks(need, packs)!;
      const sum = (pick: (p: Pack) => number) => packs.map((p, k) => `${pick(p)} x${k}`).join(' + ');
      const solved = highs.solve(
        `Minimize\n c: ${sum((p) => p.priceCents!)}\nSubject To\n n: ${sum((p) => Math.round(p.sizeL * 1000))} >= ${Math.round(need * 1000)}\nBounds\n${packs.map((_, k) => ` 0 <= x${k} <= 400`).join('\n')}\nGeneral\n ${packs.map((_, k) => `x${k}`).join(' ')}\nEnd`,
        { mip_rel_gap: 0 },
      );
      expect(solved.Status).toBe('Optimal');
      expect(ours.costCents, `order ${i}: ${need} L of ${JSON.stringify(packs)}`).toBe(
        Math.round(solved.ObjectiveValue),
      );
      // What is named is what is bought, holds the need and costs what it says.
      const held = ours.packs.reduce((s, p) => s + p.count * p.sizeL, 0);
      const paid = ours.packs.reduce(
        (s, p) => s + p.count * packs.find((q) => q.sizeL === p.sizeL)!.priceCents!,
        0,
      );
      expect(held).toBeCloseTo(ours.boughtL, 6);
      expect(held).toBeGreaterThanOrEqual(need - 1e-9);
      expect(paid).toBe(ours.costCents);
    }
  }, 120_000);

  test('ties: the least left over, then the fewest packs; without prices the same', () => {
    const flat: Pack[] = [
      { sizeL: 5, priceCents: 5000 },
      { sizeL: 4, priceCents: 5000 },
      { sizeL: 2, priceCents: 2500 },
    ];
    // 4 L in one pack and in two of 2 L cost the same as 5 L: least left over, then fewest.
    expect(cheapestPacks(4, flat)!.packs).toEqual([{ sizeL: 4, count: 1, priceCents: 5000 }]);
    const free = [20, 15, 10, 4, 2, 1].map((sizeL) => ({ sizeL, priceCents: null }));
    expect(cheapestPacks(20.3, free)).toEqual({
      packs: [
        { sizeL: 20, count: 1, priceCents: null },
        { sizeL: 1, count: 1, priceCents: null },
      ],
      boughtL: 21,
      costCents: null,
      decidedBy: 'least left over',
    });
  });

  test('nothing needed, nothing offered, and a need that is bought in bulk', () => {
    expect(cheapestPacks(0, offers)!.packs).toEqual([]);
    expect(cheapestPacks(5, [])).toBeNull();
    expect(cheapestPacks(1e7, [{ sizeL: 0.001, priceCents: 1 }])).toMatchObject({
      boughtL: 1e7,
      costCents: 1e10,
    });
    // Rounding above a whole pack buys no second one.
    expect(cheapestPacks(0.1 + 0.2, [{ sizeL: 0.3, priceCents: 100 }])!.packs).toEqual([
      { sizeL: 0.3, count: 1, priceCents: 100 },
    ]);
  });
});
