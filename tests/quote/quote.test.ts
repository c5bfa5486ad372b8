import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import type { Job } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { moneyText, parseMoney, percentOf, share, times } from '../../src/units/money.ts';
import { answered, edited, oneSlab, SOUND } from '../coating/scene.ts';

describe('money', () => {
  test('products are exact where binary fractions are not', () => {
    // 1.005 × 100 is 100.49999… in binary; 1.15 × 100 is 114.99999….
    expect(times(100, 1.005)).toBe(101);
    expect(times(100, 1.15)).toBe(115);
    expect(times(5200, 0.1 + 0.2)).toBe(1560);
    expect(times(3, 1e-7)).toBe(0);
    expect(times(1, 1e21)).toBe(1e21);
  });

  test('half a cent goes as the rule says, on either side of nothing', () => {
    expect([share(1, 1n, 2n, 'half-up'), share(1, 1n, 2n, 'half-down'), share(1, 1n, 2n, 'down')]).toEqual([
      1, 0, 0,
    ]);
    expect(share(-3, 1n, 2n, 'half-up')).toBe(-2);
    expect(share(3, 2n, 3n, 'half-down')).toBe(2);
    expect(percentOf(1999, 0, 'half-up')).toBe(0);
  });

  test('an amount that is not whole cents is a bug', () => {
    expect(() => share(1.5, 1n, 2n, 'down')).toThrow();
    expect(() => share(1, 1n, 0n, 'down')).toThrow();
  });

  test('money is read and written back', () => {
    for (const text of ['0.05', '12.50', '99999.99']) expect(moneyText(parseMoney(text)!)).toBe(text);
    for (const text of ['', '1.234', '-3', '1e3', 'ten']) expect(parseMoney(text)).toBeNull();
  });
});

/** Every price there is to enter, at one round amount. */
function priced(job: Job): Job {
  const keys = new Set(results(job).quote.costs.map((c) => c.key));
  const edits = [...keys].flatMap((key): Edit[] =>
    key.startsWith('pack.') ? [] : [{ type: 'set-price', args: { key, cents: 1000 } }],
  );
  const packs = results(job).order.lines.map(
    (l): Edit => ({
      type: 'set-packs',
      args: { productId: l.productId, packs: [{ sizeL: 10, priceCents: 12345 }] },
    }),
  );
  return edited(job, ...edits, ...packs);
}

describe('a quote', () => {
  const job = priced(answered(oneSlab(), SOUND));

  test('hours by hand: 80 m² washed, etched, and two coats of light broom with 36 m of edges cut in', () => {
    const { hours } = results(job).quote;
    // 80 / 55 + 80 / 35 + 2 (36 / 25 + (80 − band) / 45); rates are common practice, no source, and one contractor's.
    const band = 36 * 0.075 - 4 * 0.075 ** 2;
    expect(hours.work.value).toBeCloseTo(80 / 55 + 80 / 35 + 2 * (36 / 25 + (80 - band) / 45), 9);
    // Two people for 8 h less 1.85 h a day could do it in one, but rinsed concrete dries a night: two, each paid with
    // set-up, clean-up and travel.
    expect(hours.days.value).toBe(2);
    expect(hours.paid.value).toBeCloseTo(hours.work.value + 2 * 2 * 1.85, 9);
  });

  test('lines with the margin in them add up to the net, and tax by total or by line', () => {
    for (const per of ['total', 'line'] as const) {
      const taxed = edited(job, {
        type: 'change-settings',
        args: { tax: { ruleId: 'au-gst', ratePct: 10, per, on: 'all' } },
      });
      const { offer, costs, marginPct } = results(taxed).quote;
      const cost = costs.reduce((sum, c) => sum + c.cents!, 0);
      expect(Math.abs(offer!.netCents - cost * (1 + marginPct / 100))).toBeLessThanOrEqual(1.5);
      expect(offer!.lines.reduce((sum, l) => sum + l.cents, 0)).toBe(offer!.netCents);
      expect(offer!.totalCents).toBe(offer!.netCents + offer!.taxCents);
    }
  });

  test('tax on materials only leaves labour out', () => {
    const on = (what: 'all' | 'materials') =>
      results(
        edited(job, {
          type: 'change-settings',
          args: { tax: { ruleId: 'us-sales', ratePct: 8.875, per: 'total', on: what } },
        }),
      ).quote.offer!;
    const materials = on('materials').lines.find((l) => l.kind === 'materials')!.cents;
    expect(on('materials').taxCents).toBe(percentOf(materials, 8.875, 'half-up'));
    expect(on('materials').taxCents).toBeLessThan(on('all').taxCents);
  });

  test('cost per year is the total over the years of its system', () => {
    const { offer } = results(job).quote;
    expect(offer!.perYearCents).toBe(share(offer!.totalCents, 1n, 4n, 'half-up'));
  });

  test('a missing price is named and there is no offer', () => {
    const without = edited(job, { type: 'set-price', args: { key: 'labour.hour', cents: null } });
    expect(results(without).quote).toMatchObject({ offer: null, unpriced: ['labour'] });
  });

  test('prices that are no whole cents are refused', () => {
    expect(() => edited(job, { type: 'set-price', args: { key: 'tape', cents: 1.5 } })).toThrow(
      'must lie between',
    );
  });

  test('scope names each zone with its coats; cautions fit the work', () => {
    const { scope, cautions } = results(job).quote;
    expect(scope.work[0]!.words).toContain(
      'etch, rinse and let dry; first coat of paving paint, water-borne',
    );
    expect(scope.exclusions.join()).toContain('slip class');
    const words = cautions.map((c) => c.words).join();
    expect(words).toContain('Acid burns');
    expect(words).not.toContain('silica');
    const ground = results(
      edited(job, {
        type: 'update-slab',
        args: { slabId: 'a', surface: { preparation: 'grind', systemId: 'two-pack-epoxy' } },
      }),
    ).quote.cautions.map((c) => c.words);
    expect(ground.join()).toContain('silica');
    expect(ground.join()).toContain('isocyanate');
    expect(ground.join()).not.toContain('Acid burns');
  });

  test('a day that set-up and travel fill still comes to an end', () => {
    const slow = edited(job, { type: 'set-value', args: { key: 'work.travel', value: 20 } });
    expect(Number.isFinite(results(slow).quote.hours.days.value)).toBe(true);
  });
});
