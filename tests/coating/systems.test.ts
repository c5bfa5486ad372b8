import { describe, expect, test } from 'vitest';
import { ALL_VALUES, SYSTEMS } from '../../src/coating/systems/index.ts';
import { DAY_VALUES, WORK_VALUES } from '../../src/days/values.ts';
import type { Surface } from '../../src/job/types.ts';
import { cheapestPacks } from '../../src/order/packs.ts';
import { QUOTE_VALUES } from '../../src/quote/values.ts';
import { results } from '../../src/results.ts';
import { answered, edited, oneSlab, SOUND, slabEdit } from './scene.ts';

const coated = (surface: Partial<Surface>) => {
  const r = results(answered(oneSlab(surface), SOUND));
  return { ...r.coating.zones[0]!, codes: r.remarks.map((x) => x.code), blocks: r.order.blocks, r };
};

describe('values', () => {
  const all = [...ALL_VALUES, ...QUOTE_VALUES, ...DAY_VALUES, ...WORK_VALUES];

  test('each has a key of its own, lies in its range, and its choices do too', () => {
    expect(new Set(all.map((d) => d.key)).size).toBe(all.length);
    for (const d of all) {
      for (const value of [d.value, ...(d.choices ?? []).map((c) => c.value)]) {
        expect(value, d.key).toBeGreaterThanOrEqual(d.low);
        expect(value, d.key).toBeLessThanOrEqual(d.high);
      }
      if (d.choices)
        expect(
          d.choices.map((c) => c.value),
          d.key,
        ).toContain(d.value);
    }
  });

  test('where sources disagree each says so in a line and offers what they say', () => {
    // The contradictions that public texts and habits have: thinner, nap, etch, age, margin, coldest.
    for (const key of [
      'system.water-borne-paving.first.thinning',
      'texture.heavy-broom.nap',
      'etch.coverage',
      'etch.dwell',
      'ready.age',
      'ready.coldest',
      'weather.margin',
    ]) {
      const d = all.find((v) => v.key === key)!;
      expect(d.note, key).toBeTruthy();
      expect(d.choices!.length, key).toBeGreaterThanOrEqual(2);
    }
  });
});

describe('systems', () => {
  test('a stated rate goes before solids and film, and the films follow from it', () => {
    const key = 'system.water-borne-paving.second.rate';
    const job = edited(oneSlab({ texture: 'trowelled' }), { type: 'set-value', args: { key, value: 6 } });
    const second = results(job).coating.zones[0]!.coats[1]!;
    expect(second.paint.value).toBeCloseTo(80 / 6 / 0.95, 9);
    expect(second.wetFilm.value).toBeCloseTo(1000 / 6, 9);
    expect(second.dryFilm!.value).toBeCloseTo((1000 / 6) * 0.42, 9);
  });

  test('holding the wet film spends less paint and leaves a thinner film; holding the dry film does neither', () => {
    const job = oneSlab({ texture: 'trowelled' });
    const dry = results(job).coating.zones[0]!.coats[0]!;
    const wet = results(edited(job, { type: 'change-settings', args: { filmHeld: 'wet' } })).coating.zones[0]!
      .coats[0]!;
    // 20 % of thinner: the film's share of the paint and the dry film fall by 1.2.
    const pores = (80 * 20) / 1000 / 1.2 / 0.95;
    expect((dry.paint.value - pores) / (wet.paint.value - pores)).toBeCloseTo(1.2, 9);
    expect(dry.dryFilm!.value / wet.dryFilm!.value).toBeCloseTo(1.2, 9);
    expect(wet.wetFilm.value).toBeCloseTo(dry.wetFilm.value / 1.2, 9);
  });

  test('a sealer leaves no film, is not etched for, has no colour and holds no grip additive', () => {
    const z = coated({ systemId: 'penetrating-sealer', grip: true, colour: 'sand' });
    expect(z.coats.map((c) => c.dryFilm)).toEqual([null, null]);
    expect([z.etch, z.preparation, z.coats[0]!.colour]).toEqual([null, 'wash', '']);
    expect(z.coats.every((c) => c.additive === null)).toBe(true);
    expect(z.codes).toContain('grip/no-film');
  });

  test('two-pack epoxy ends in a UV-stable finish, and is mixed by what its pot life allows', () => {
    // UFC 3-190-06, 4.4.2.4, READ: an aliphatic urethane instead of a second epoxy outdoors.
    const { coats, r } = coated({ systemId: 'two-pack-epoxy', texture: 'exposed-aggregate' });
    expect(coats.map((c) => c.product.id)).toEqual(['two-pack-epoxy', 'aliphatic-urethane']);
    const [base] = r.mixes;
    const bucket = base!.full!;
    expect(bucket.hardenerL).toBeCloseTo(bucket.paintL / 5, 9);
    // Half of 40 minutes at 22 m² an hour.
    expect(bucket.coversM2).toBeCloseTo((22 * 40) / 60 / 2, 9);
  });

  test('every system says what it is like, and how long it may last', () => {
    for (const s of SYSTEMS) {
      expect(s.plain.length, s.id).toBeGreaterThan(20);
      expect(s.repaint.value, s.id).toBeLessThanOrEqual(s.life.value);
    }
  });
});

describe('why a coat is as it is', () => {
  const reasons = (surface: Partial<Surface>) => coated(surface).coats.map((c) => c.reasons.join(' '));

  test('a primer says why it is there, and the coats over it why they are neat', () => {
    const [primer, first, second] = reasons({ traffic: 'cars' });
    expect(primer).toContain('tyres');
    expect(first).toBe('Over a primer every coat goes on neat.');
    expect(second).toBe('');
  });

  test('bare concrete is thinned for, old paint is not', () => {
    expect(reasons({})).toEqual(['', '']);
    expect(reasons({ condition: 'painted' })[0]).toContain('over old paint it goes on neat');
    const z = coated({ condition: 'painted' });
    expect(z.coats.map((c) => [c.thinner, c.thinning.value])).toEqual([
      [null, 0],
      [null, 0],
    ]);
  });

  test('a sealer says why it holds no grip additive, and only where that is asked for', () => {
    expect(reasons({ systemId: 'penetrating-sealer', grip: true }).join()).toContain('needs a film');
    expect(reasons({ systemId: 'penetrating-sealer' }).join('')).toBe('');
    expect(reasons({ grip: true }).join('')).toBe('');
  });

  test('what is sold by share of the mix is turned into a share of the paint: 20 % of the mix are 25 % of the paint', () => {
    const job = oneSlab();
    const of = (thinningOf: 'paint' | 'mix') =>
      results(edited(job, { type: 'change-settings', args: { thinningOf } })).coating.zones[0]!.coats[0]!
        .thinning.value;
    expect(of('paint')).toBeCloseTo(0.2, 12);
    expect(of('mix')).toBeCloseTo(0.25, 12);
  });

  test('pores are filled once, on bare concrete, and not by a sealer', () => {
    const d = (surface: Partial<Surface>) => coated(surface).coats.map((c) => c.paint.inputs!.d!.value);
    expect(d({})).toEqual([20, 0]);
    expect(d({ condition: 'painted' })).toEqual([0, 0]);
    expect(d({ systemId: 'penetrating-sealer' })).toEqual([0, 0]);
  });

  test('names of coats, and tint that a primer or a sealer does not have', () => {
    const z = coated({ traffic: 'cars', colour: 'slate', base: 'deep', tintPct: 50, finish: 'satin' });
    expect(z.coats.map((c) => c.paint.name)).toEqual([
      'paint, primer',
      'paint, first coat',
      'paint, second coat',
    ]);
    expect(z.coats.map((c) => [c.colour, c.base, c.strengthPct, c.finish])).toEqual([
      ['', null, 100, null],
      ['slate', 'deep', 50, 'satin'],
      ['slate', 'deep', 50, 'satin'],
    ]);
  });
});

describe('values out of their range', () => {
  const remark = (key: string, value: number) =>
    results(edited(oneSlab(), { type: 'set-value', args: { key, value } })).remarks.find(
      (x) => x.code === 'value/out-of-range',
    );

  test('are not used, are said, and can be put back', () => {
    const d = ALL_VALUES.find((v) => v.key === 'loss.smooth')!;
    expect(remark(d.key, d.low)).toBeUndefined();
    expect(remark(d.key, d.high)).toBeUndefined();
    for (const value of [d.high + 1, d.low - 1]) {
      const said = remark(d.key, value)!;
      expect(said.sentence).toMatch(new RegExp(`in that range; until then ${d.value} is used\\.$`));
      expect(said.fixes).toEqual([
        { label: `Use ${d.value}`, edit: { type: 'set-value', args: { key: d.key, value: null } } },
      ]);
    }
  });
});

describe('what does not belong together', () => {
  const stops: ReadonlyArray<readonly [string, Partial<Surface>]> = [
    ['system/solvent-over-water', { systemId: 'solvent-borne-paving', primer: 'water-borne-primer' }],
    ['system/no-primer', { traffic: 'cars', primer: 'none' }],
    ['preparation/etch-on-paint', { condition: 'painted', preparation: 'etch' }],
    ['preparation/no-profile', { preparation: 'wash' }],
    ['system/sealer-on-paint', { condition: 'painted', systemId: 'penetrating-sealer' }],
    ['system/primer-under-sealer', { systemId: 'penetrating-sealer', primer: 'water-borne-primer' }],
    ['preparation/not-abraded', { condition: 'painted', preparation: 'wash' }],
    ['system/unknown-primer', { primer: 'gone' }],
    ['system/unknown', { systemId: 'gone' }],
  ];

  test.each(stops)('%s keeps the order back, and its fix mends it', (code, surface) => {
    const z = coated(surface);
    expect(z.codes).toContain(code);
    expect(z.blocks.length).toBeGreaterThan(0);
    const fix = z.r.remarks.find((x) => x.code === code)!.fixes[0];
    if (fix) expect(results(edited(z.r.job, fix.edit)).remarks.map((x) => x.code)).not.toContain(code);
  });

  test('each fix does what its label says', () => {
    const fixed = (surface: Partial<Surface>, code: string) => {
      const z = coated(surface);
      const fix = z.r.remarks.find((x) => x.code === code)!.fixes[0]!;
      return edited(z.r.job, fix.edit).slabs.a!.surface;
    };
    expect(fixed({ preparation: 'wash' }, 'preparation/no-profile').preparation).toBe('etch');
    expect(fixed({ primer: 'gone' }, 'system/unknown-primer').primer).toBe('');
    expect(fixed({ systemId: 'penetrating-sealer', grip: true }, 'grip/no-film').grip).toBe(false);
    expect(
      fixed({ condition: 'painted', preparation: 'etch' }, 'preparation/etch-on-paint').preparation,
    ).toBe('abrade');
  });

  test('nothing is said of grip where none is asked for, or where a film holds it', () => {
    for (const surface of [
      {},
      { grip: true },
      { systemId: 'penetrating-sealer' },
      { systemId: null, grip: true },
    ])
      expect(coated(surface).codes.filter((c) => c.startsWith('grip/'))).toEqual([]);
  });

  test('colours that differ only in how they are typed are bought together', () => {
    const job = edited(
      oneSlab({ colour: 'Slate  grey' }),
      slabEdit('b', [20, 3, 2], { colour: ' slate grey' }),
      slabEdit('d', [30, 3, 2], { colour: 'slategrey' }),
    );
    expect(results(job).coating.paints.length).toBe(2);
  });

  test('water to thin with is not called after the paint’s own thinner', () => {
    const names = (surface: Partial<Surface>) => coated(surface).r.coating.others.map((m) => m.material);
    expect(names({})).toContain('water to thin with');
    expect(names({ systemId: 'solvent-borne-paving' })).toContain('mineral turpentine');
  });

  test('what does belong together is let through', () => {
    for (const surface of [
      { systemId: 'solvent-borne-paving', traffic: 'cars' },
      { traffic: 'cars' },
      { traffic: 'foot', primer: 'none' },
      { condition: 'painted', preparation: 'abrade' },
      { preparation: 'grind' },
      { systemId: 'two-pack-epoxy', traffic: 'heavy' },
    ] satisfies Array<Partial<Surface>>) {
      expect(coated(surface).blocks, JSON.stringify(surface)).toEqual([]);
    }
  });

  test('a primer that is asked for goes under a foot path too, and the first coat is then neat', () => {
    const z = coated({ primer: 'water-borne-primer' });
    expect(z.coats.map((c) => [c.role, c.thinner !== null])).toEqual([
      ['primer', false],
      ['first', false],
      ['second', false],
    ]);
  });

  test('grip asked for on a slab does not reach its rougher zone until it is asked for there', () => {
    const cut = edited(
      answered(oneSlab({ grip: true }), SOUND),
      {
        type: 'add-cut',
        args: {
          id: 'c',
          slabId: 'a',
          points: [
            { at: 'side', cornerId: 'a0', t: 0.5 },
            { at: 'side', cornerId: 'a2', t: 0.5 },
          ],
        },
      },
      {
        type: 'set-tag',
        args: {
          id: 't',
          slabId: 'a',
          anchor: { x: 2, y: 2 },
          name: 'West',
          surface: { texture: 'heavy-broom' },
        },
      },
    );
    const grams = (job: typeof cut) =>
      results(job).coating.zones.map((z) => z.coats.some((c) => c.additive !== null));
    expect(grams(cut).filter(Boolean)).toHaveLength(1);
    const said = results(cut).remarks.find((x) => x.code === 'grip/rough-already')!;
    expect(grams(edited(cut, said.fixes[0]!.edit))).toEqual([true, true]);
    // Asked for outright, it is put in, however rough.
    expect(coated({ texture: 'exposed-aggregate', grip: true }).coats[1]!.additive!.value).toBeGreaterThan(0);
  });

  test('a zone with a description of its own is mended there, not in its slab', () => {
    const job = edited(
      answered(oneSlab({ traffic: 'cars' }), SOUND),
      {
        type: 'add-cut',
        args: {
          id: 'c',
          slabId: 'a',
          points: [
            { at: 'side', cornerId: 'a0', t: 0.5 },
            { at: 'side', cornerId: 'a2', t: 0.5 },
          ],
        },
      },
      {
        type: 'set-tag',
        args: { id: 't', slabId: 'a', anchor: { x: 2, y: 2 }, name: 'West', surface: { primer: 'none' } },
      },
    );
    const fix = results(job).remarks.find((x) => x.code === 'system/no-primer')!.fixes[0]!;
    expect(fix.edit.type).toBe('set-tag');
    expect(results(edited(job, fix.edit)).order.blocks).toEqual([]);
  });
});

describe('the order', () => {
  const two = (surface: Partial<Surface>) =>
    edited(
      answered(oneSlab({ colour: 'grey' }), SOUND),
      slabEdit('b', [20, 6, 5], { colour: 'grey', ...surface }),
    );

  test('colour, base, tint strength and finish are not thrown together', () => {
    const lines = (surface: Partial<Surface>) => results(two(surface)).order.lines.map((l) => l.tint);
    expect(lines({})).toEqual(['grey']);
    expect(lines({ base: 'deep' })).toEqual(['grey', 'grey, deep base']);
    expect(lines({ tintPct: 50 })).toEqual(['grey', 'grey, 50 % tint']);
    expect(lines({ finish: 'satin' })).toEqual(['grey', 'grey, satin']);
  });

  test('places that are not seen together are told apart in the advice on batches', () => {
    const apart = results(two({})).order.lines[0]!;
    expect(apart.areas.map((a) => a.zoneNames)).toEqual([['A'], ['B']]);
    expect(apart.boxing).toContain('2 places');
    const touching = edited(
      answered(oneSlab({ colour: 'grey' }), SOUND),
      slabEdit('b', [10, 6, 8], { colour: 'grey' }),
    );
    expect(results(touching).order.lines[0]!.areas.map((a) => a.zoneNames)).toEqual([['A', 'B']]);
  });

  test('a slab without a scale, and a value out of its range, keep the order back', () => {
    const odd = { ...answered(oneSlab(), SOUND), values: { 'texture.light-broom.first': 14 } };
    expect(results(odd).order).toMatchObject({ lines: [] });
    const unscaled = edited(answered(oneSlab(), SOUND), {
      type: 'add-sheet',
      args: { id: 'p', name: 'Photo', picture: { imageId: 'i', widthPx: 100, heightPx: 100 }, fit: null },
    });
    // A sheet that nothing is drawn on keeps nothing back.
    expect(results(unscaled).order.lines).toHaveLength(1);
  });

  test('by percentage and by chance are a setting apart', () => {
    const job = edited(two({}), { type: 'change-settings', args: { orderBy: 'percent' } });
    const [line] = results(job).order.lines;
    expect(line!.need.value).toBeCloseTo(line!.paint.quantity.value * 1.1 + 0.5, 9);
  });

  test('sleeves by nap and life, kept for the next coat only where they can be washed; brushes, trays, soda', () => {
    const sundries = (surface: Partial<Surface>) =>
      new Map(
        results(answered(oneSlab(surface), SOUND)).order.sundries.map((s) => [s.key, s.quantity.value]),
      );
    // 80 m² twice at 160 m² a sleeve: one, washed out overnight; with solvent one for each coat.
    expect(sundries({}).get('sleeve')).toBe(1);
    expect(sundries({ systemId: 'solvent-borne-paving' }).get('sleeve')).toBe(2);
    expect(sundries({}).get('neutraliser')).toBeCloseTo(2 * 1.31, 9);
    expect(sundries({}).get('rinse')).toBeCloseTo(80 * 8.25, 9);
  });
});

test('a need beyond what is worked out in one go is bought in bulk, and its rest exactly', () => {
  const offers = [0.946, 3.785, 18.927].map((sizeL, i) => ({ sizeL, priceCents: [1900, 5200, 21900][i]! }));
  const choice = cheapestPacks(7482, offers)!;
  const held = choice.packs.reduce((sum, p) => sum + p.count * p.sizeL, 0);
  expect(held).toBeGreaterThanOrEqual(7482);
  expect(choice.boughtL).toBeCloseTo(held, 6);
  // No cheaper than all of it at the least price a litre, and within one large pack of that.
  const least = (7482 * 21900) / 18.927;
  expect(choice.costCents).toBeGreaterThanOrEqual(least);
  expect(choice.costCents).toBeLessThan(least + 21900);
});

describe('mixes', () => {
  test('buckets add up to the litres of the coat, whatever the bucket', () => {
    for (const bucket of [4, 7.3, 10, 60]) {
      const job = edited(oneSlab({ grip: true }), {
        type: 'set-value',
        args: { key: 'mix.bucket', value: bucket },
      });
      const { mixes, coating } = results(job);
      mixes.forEach((m, i) => {
        const sum = (pick: (b: NonNullable<typeof m.full>) => number) =>
          m.fullCount * (m.full ? pick(m.full) : 0) + (m.last ? pick(m.last) : 0);
        const coat = coating.zones[0]!.coats[i]!;
        expect(sum((b) => b.paintL)).toBeCloseTo(coat.paint.value, 9);
        expect(sum((b) => b.thinnerL)).toBeCloseTo(coat.thinner?.value ?? 0, 9);
        expect(sum((b) => b.additiveG)).toBeCloseTo(coat.additive?.value ?? 0, 9);
        expect(sum((b) => b.coversM2)).toBeCloseTo(80, 9);
        if (m.full) expect(m.full.paintL + m.full.thinnerL).toBeCloseTo(bucket, 9);
      });
    }
  });

  test('etch, can by can: 80 m² are 2 kg in two cans of 10 L', () => {
    const e = results(oneSlab()).etchSheet!;
    expect([e.cans, e.acidKg, e.waterL, e.lastWaterL]).toEqual([2, 1, 10, 0]);
    // 25 g/m²: 0.390 mol/m², a sixth of the usual hydrochloric wash; stoichiometry, DERIVED.
    expect(e.strength.value).toBeCloseTo(0.39037, 4);
  });
});
