import { describe, expect, test } from 'vitest';
import { valueByKey } from '../../src/coating/values.ts';
import type { Job, Surface } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab, slabEdit } from './scene.ts';

const set = (job: Job, key: string, value: number) =>
  edited(job, { type: 'set-value', args: { key, value } });
const notes = (surface: Partial<Surface>, mix = 0) => results(oneSlab(surface)).mixes[mix]!.notes.join(' ');

describe('buckets', () => {
  test('a mix that fills its buckets to the brim has no last one; one smaller than a bucket has no full one', () => {
    const { paint, thinner } = results(oneSlab()).coating.zones[0]!.coats[0]!;
    const mix = paint.value + thinner!.value;
    const brim = results(set(oneSlab(), 'mix.bucket', mix / 2)).mixes[0]!;
    expect([brim.fullCount, brim.last]).toEqual([2, null]);
    const large = results(set(oneSlab(), 'mix.bucket', Math.ceil(mix) + 1)).mixes[0]!;
    expect([large.full, large.fullCount]).toEqual([null, 0]);
    expect(large.last!.paintL).toBeCloseTo(paint.value, 9);
  });

  test('say which zones share them, and are apart where texture, colour or dose differ', () => {
    const same = results(edited(oneSlab(), slabEdit('b', [20, 3, 2]))).mixes;
    expect(same.map((m) => m.zoneNames)).toEqual([
      ['A', 'B'],
      ['A', 'B'],
    ]);
    for (const other of [{ colour: 'slate' }, { texture: 'stipple' }] satisfies Array<Partial<Surface>>) {
      const apart = results(edited(oneSlab(), slabEdit('b', [20, 3, 2], other))).mixes;
      expect(apart.map((m) => m.zoneNames)).toEqual([['A'], ['A'], ['B'], ['B']]);
    }
    const grip = results(edited(oneSlab(), slabEdit('b', [20, 3, 2], { grip: true }))).mixes;
    expect(grip.map((m) => m.zoneNames)).toEqual([['A', 'B'], ['A'], ['B']]);
    expect(grip[2]!.last!.additiveG).toBeGreaterThan(0);
  });

  test('a two-pack holds base and hardener by its ratio, paint none', () => {
    const { mixes, coating } = results(oneSlab({ systemId: 'two-pack-epoxy' }));
    const { twoPack } = coating.zones[0]!.coats[0]!.product;
    const b = (mixes[0]!.full ?? mixes[0]!.last)!;
    expect(b.hardenerL * (twoPack!.ratio.value + 1)).toBeCloseTo(b.paintL, 9);
    expect(results(oneSlab()).mixes[0]!.full!.hardenerL).toBe(0);
  });

  test('a two-pack is mixed by what rolls out in half its pot life on the slowest texture, if that is less than a bucket', () => {
    const job = edited(
      oneSlab({ systemId: 'two-pack-epoxy', texture: 'trowelled' }),
      slabEdit('b', [20, 3, 2], { systemId: 'two-pack-epoxy', texture: 'trowelled' }),
    );
    const r = results(job);
    const { twoPack } = r.coating.zones[0]!.coats[0]!.product;
    const rate = valueByKey(job, 'texture.trowelled.roll').value;
    expect(r.mixes[0]!.limit).toBe(
      `half the pot life of ${twoPack!.potLife.value} min at ${rate} m² an hour`,
    );
    expect(r.mixes[0]!.full!.coversM2).toBeCloseTo((rate * twoPack!.potLife.value) / 120, 9);
    const small = results(set(job, 'mix.bucket', 0.5)).mixes[0]!;
    expect(small.limit).toBe('the bucket of 0.5 L');
  });
});

describe('what is said beside the buckets', () => {
  test('paint: the wet edge of its carrier, and the bay that goes with it', () => {
    const job = oneSlab();
    const minutes = valueByKey(job, 'mix.wet-edge-water').value;
    const rate = valueByKey(job, `texture.${job.slabs.a!.surface.texture}.roll`).value;
    expect(notes({})).toContain(
      `lap within ${minutes} min, which is a bay of ${((rate * minutes) / 60).toFixed(1)} m²`,
    );
    const solvent = valueByKey(job, 'mix.wet-edge-solvent').value;
    expect(solvent).not.toBe(minutes);
    expect(notes({ systemId: 'solvent-borne-paving' })).toContain(`lap within ${solvent} min`);
    expect(notes({})).not.toContain('pot life');
  });

  test('the thinner only where there is one, the additive only where it goes in', () => {
    expect(notes({})).toContain('then the thinner in');
    expect(notes({}, 1)).not.toContain('thinner');
    expect(notes({ grip: true }, 0)).not.toContain('Sprinkle');
    expect(notes({ grip: true }, 1)).toContain('Sprinkle');
  });

  test('a two-pack: its pot life and how it is stirred, and no wet edge', () => {
    const two = notes({ systemId: 'two-pack-epoxy' });
    expect(two).toMatch(/pot life of \d+ min at 20 °C/);
    expect(two).toContain('then the hardener in');
    expect(two).not.toContain('wet edge');
    expect(notes({})).not.toContain('hardener');
  });
});

describe('etch', () => {
  test('what does not fill a can goes into a last one, at the same strength', () => {
    const e = results(set(oneSlab(), 'mix.etch-bucket', 7)).etchSheet!;
    // 80 m² are 2 kg in 20 L.
    expect([e.cans, e.waterL]).toEqual([2, 7]);
    expect(e.acidKg).toBeCloseTo(0.7, 9);
    expect(e.lastWaterL).toBeCloseTo(6, 9);
    expect(e.lastAcidKg).toBeCloseTo(0.6, 9);
    expect(e.coversM2).toBeCloseTo(28, 9);
  });

  test('two slabs are etched out of the same cans; one that is ground is not in them', () => {
    const both = results(edited(oneSlab(), slabEdit('b', [20, 10, 8]))).etchSheet!;
    expect([both.cans, both.lastWaterL, both.lastAcidKg]).toEqual([4, 0, 0]);
    expect(both.neutraliserKg).toBeCloseTo(2 * results(oneSlab()).etchSheet!.neutraliserKg, 9);
    expect(both.neutraliserKg).toBeGreaterThan(0);
    const one = results(edited(oneSlab(), slabEdit('b', [20, 10, 8], { preparation: 'grind' }))).etchSheet!;
    expect(one.cans).toBe(2);
    expect(results(oneSlab({ preparation: 'grind' })).etchSheet).toBeNull();
  });
});
