import { describe, expect, test } from 'vitest';
import { multiplierOf, trialShows } from '../../src/coating/multipliers.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { type Amount, chanceShort, deviationsUp, sumOfAmounts } from '../../src/order/risk.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab } from '../coating/scene.ts';
import { normal, randomNumbers } from '../random/numbers.ts';

describe('the normal distribution', () => {
  // Table of the standard normal distribution, from memory: 10, 5, 2.5, 1 and 0.1 % upper tails.
  test.each([
    [0.1, 1.281552],
    [0.05, 1.644854],
    [0.025, 1.959964],
    [0.01, 2.326348],
    [0.001, 3.090232],
  ])('is exceeded with a chance of %d at %d', (chance, z) => {
    expect(deviationsUp(chance)).toBeCloseTo(z, 4);
  });

  test('what is ordered for a chance is short with that chance; nothing ordered is always short', () => {
    const spread = { middle: Math.log(20), deviation: 0.07 };
    for (const chance of [0.001, 0.01, 0.05, 0.5]) {
      const litres = Math.exp(spread.middle + deviationsUp(chance) * spread.deviation);
      expect(chanceShort(spread, litres)).toBeCloseTo(chance, 5);
    }
    expect(chanceShort(spread, 0)).toBe(1);
  });
});

test('mean and variance of amounts that share causes, against 400,000 draws', () => {
  const amounts: Amount[] = [
    {
      litres: 10,
      causes: [
        { key: 'rough', deviation: 0.12 },
        { key: 'a', deviation: 0.05 },
      ],
    },
    {
      litres: 6,
      causes: [
        { key: 'rough', deviation: 0.12 },
        { key: 'b', deviation: 0.05 },
      ],
    },
    {
      litres: 14,
      causes: [
        { key: 'smooth', deviation: 0.05 },
        { key: 'scale', deviation: 0.02 },
      ],
    },
    {
      litres: 3,
      causes: [
        { key: 'smooth', deviation: 0.05 },
        { key: 'scale', deviation: 0.02 },
      ],
    },
  ];
  const random = randomNumbers(7);
  let sum = 0;
  let squares = 0;
  const draws = 400_000;
  for (let n = 0; n < draws; n++) {
    const drawn = new Map<string, number>();
    const of = (key: string) => {
      const z = drawn.get(key) ?? normal(random);
      drawn.set(key, z);
      return z;
    };
    const total = amounts.reduce(
      (t, a) => t + a.litres * Math.exp(a.causes.reduce((e, c) => e + c.deviation * of(c.key), 0)),
      0,
    );
    sum += total;
    squares += total * total;
  }
  const mean = sum / draws;
  const variance = squares / draws - mean * mean;
  const found = sumOfAmounts(amounts);
  expect(found.mean).toBeCloseTo(mean, 1);
  expect(found.variance / variance).toBeGreaterThan(0.98);
  expect(found.variance / variance).toBeLessThan(1.02);
});

const trial = (id: string, usedL: number): Edit => ({
  type: 'add-trial',
  args: {
    id,
    texture: 'stipple',
    coat: 'later',
    areaM2: 10,
    usedL,
    rateM2PerL: 8,
    bare: false,
    thinning: 0,
    note: '',
  },
});

describe('learning from paint used', () => {
  const start = emptyJob('j', 'Job');

  test('the multiplier is what Bayes’ rule gives, worked out on a grid of two thousand values', () => {
    // Independent: prior times likelihood point by point, and the mean of the logarithm by summation.
    const used = [1.9, 2.1, 2.0];
    const job = edited(start, ...used.map((litres, i) => trial(`t${i}`, litres)));
    const shown = used.map((litres) => Math.log(((litres * 0.9) / 10) * 8));
    const [k0, s, t] = [1.25, 0.08, 0.08];
    let weight = 0;
    let mean = 0;
    let square = 0;
    for (let x = -0.5; x < 1; x += 0.00075) {
      const prior = Math.exp(-(((x - Math.log(k0)) / s) ** 2) / 2);
      const likelihood = shown.reduce((p, y) => p * Math.exp(-(((y - x) / t) ** 2) / 2), 1);
      weight += prior * likelihood;
      mean += prior * likelihood * x;
      square += prior * likelihood * x * x;
    }
    mean /= weight;
    const learnt = multiplierOf(job, 'stipple', 'later');
    expect(Math.log(learnt.k.value)).toBeCloseTo(mean, 6);
    expect(learnt.spread.value).toBeCloseTo(Math.sqrt(square / weight - mean * mean), 5);
    expect(learnt.trials).toBe(3);
  });

  test('more trials move it further and make it surer; another texture stays as it is; an own value is where it starts from', () => {
    const one = edited(start, trial('a', 2.4));
    const three = edited(one, trial('b', 2.4), trial('c', 2.4));
    const k = (job: Job) => multiplierOf(job, 'stipple', 'later');
    expect(k(one).k.value).toBeGreaterThan(k(start).k.value);
    expect(k(three).k.value).toBeGreaterThan(k(one).k.value);
    expect(k(three).spread.value).toBeLessThan(k(one).spread.value);
    expect(multiplierOf(three, 'heavy-broom', 'later').k.value).toBe(1.3);
    const own = edited(three, { type: 'set-value', args: { key: 'texture.stipple.later', value: 2 } });
    expect(multiplierOf(own, 'stipple', 'later').k.value).toBeGreaterThan(k(three).k.value);
  });

  test.each([
    ['water-borne-paving', 'bare', 'dry'],
    ['water-borne-paving', 'bare', 'wet'],
    ['water-borne-paving', 'painted', 'dry'],
    ['solvent-borne-paving', 'bare', 'wet'],
    ['penetrating-sealer', 'bare', 'dry'],
    ['two-pack-epoxy', 'sealed', 'dry'],
  ] as const)(
    'the litres that were worked out show the multiplier they were worked out with: %s, %s, %s film held',
    (systemId, condition, filmHeld) => {
      const job = edited(oneSlab({ systemId, condition, texture: 'stipple' }), {
        type: 'change-settings',
        args: { filmHeld, thinningOf: 'mix' },
      });
      for (const coat of results(job).coating.zones[0]!.coats) {
        const { S, d, T, k } = coat.paint.inputs!;
        const shown = trialShows(job, {
          id: 't',
          texture: 'stipple',
          coat: coat.first ? 'first' : 'later',
          areaM2: 80,
          usedL: coat.paint.value,
          rateM2PerL: S!.value,
          bare: d!.value > 0,
          thinning: T!.value,
          note: '',
        });
        expect(shown!.value).toBeCloseTo(k!.value, 9);
      }
    },
  );

  test('paint that the pores alone would take shows nothing, and is not used', () => {
    const dry = edited(start, {
      type: 'add-trial',
      args: {
        id: 'x',
        texture: 'trowelled',
        coat: 'first',
        areaM2: 100,
        usedL: 1,
        rateM2PerL: 8,
        bare: true,
        thinning: 0,
        note: '',
      },
    });
    expect(multiplierOf(dry, 'trowelled', 'first').trials).toBe(0);
  });

  test('a trial of no size is refused with a sentence', () => {
    const next = applyEdit(start, {
      type: 'add-trial',
      args: {
        id: 'x',
        texture: 'trowelled',
        coat: 'first',
        areaM2: 0,
        usedL: 1,
        rateM2PerL: 8,
        bare: false,
        thinning: 0,
        note: '',
      },
    });
    expect(next.ok).toBe(false);
  });
});

test('an order by chance is larger on rougher concrete, and smaller once it has been learnt', () => {
  const slab = (texture: 'trowelled' | 'exposed-aggregate'): Job =>
    edited(
      emptyJob('j', 'Job'),
      { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
      {
        type: 'add-slab',
        args: {
          id: 'a',
          name: 'A',
          sheetId: 'g',
          corners: [
            { id: '1', x: 0, y: 0, via: null },
            { id: '2', x: 10, y: 0, via: null },
            { id: '3', x: 10, y: 8, via: null },
            { id: '4', x: 0, y: 8, via: null },
          ],
          surface: { ...DEFAULT_SURFACE, texture },
        },
      },
    );
  const margin = (job: Job) => {
    const [line] = results(job).order.lines;
    return line!.byChance.value / line!.paint.quantity.value;
  };
  const rough = slab('exposed-aggregate');
  expect(margin(rough)).toBeGreaterThan(margin(slab('trowelled')) + 0.03);
  const [line] = results(rough).order.lines;
  const [first, second] = line!.paint.parts.map((p) => p.coat);
  const learnt = edited(
    rough,
    ...[first!, second!].flatMap((coat, c) =>
      [0, 1, 2, 3].map(
        (i): Edit => ({
          type: 'add-trial',
          args: {
            id: `t${c}${i}`,
            texture: 'exposed-aggregate',
            coat: coat.first ? 'first' : 'later',
            areaM2: 80,
            usedL: coat.paint.value,
            rateM2PerL: coat.paint.inputs!.S!.value,
            bare: coat.first,
            thinning: coat.thinning.value,
            note: '',
          },
        }),
      ),
    ),
  );
  expect(results(learnt).order.lines[0]!.paint.quantity.value).toBeCloseTo(line!.paint.quantity.value, 0);
  expect(margin(learnt)).toBeLessThan(margin(rough) - 0.02);
});
