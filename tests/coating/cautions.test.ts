import { expect, test } from 'vitest';
import { cautionsFor } from '../../src/coating/cautions.ts';
import type { Surface } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { sourceText } from '../../src/working/source.ts';
import { edited, oneSlab, slabEdit } from './scene.ts';

const cautions = (...surfaces: Array<Partial<Surface>>) => {
  const [first, ...rest] = surfaces;
  const job = edited(oneSlab(first), ...rest.map((s, i) => slabEdit(`n${i}`, [20 + 5 * i, 3, 2], s)));
  const r = results(job);
  return cautionsFor(r.takeoff.zones, r.coating);
};
const words = (...surfaces: Array<Partial<Surface>>) => cautions(...surfaces).map((c) => c.words);

/*
 * Which work calls for which words. Silica: 29 CFR 1926.1153 table 1, READ; lead: 73 FR 21692, READ; injection by
 * pressure washers: NIOSH 93-117, READ; acid, asbestos, solvents, isocyanates: usual precautions, FROM MEMORY.
 */
const HAZARDS = {
  acid: /Acid burns/,
  silica: /free silica dust/,
  asbestos: /hold asbestos/,
  lead: /may hold lead/,
  solvent: /vapour burns/,
  hardener: /hardeners: epoxy/,
} as const;
type Hazard = keyof typeof HAZARDS;

const ROWS: ReadonlyArray<readonly [string, Partial<Surface>, readonly Hazard[]]> = [
  ['bare concrete, etched', {}, ['acid']],
  ['bare concrete, ground', { preparation: 'grind' }, ['silica', 'asbestos']],
  ['old paint, abraded', { condition: 'painted', preparation: 'abrade' }, ['silica', 'lead']],
  ['bare concrete, washed for a sealer', { systemId: 'penetrating-sealer' }, []],
  ['solvent-borne', { systemId: 'solvent-borne-paving' }, ['acid', 'solvent']],
  ['two-pack', { systemId: 'two-pack-epoxy' }, ['acid', 'solvent', 'hardener']],
  ['nothing coated', { systemId: null, condition: 'painted' }, []],
];

test.each(ROWS)('%s', (_what, surface, hazards) => {
  const all = words(surface).join('\n');
  for (const [hazard, pattern] of Object.entries(HAZARDS))
    expect(pattern.test(all), hazard).toBe(hazards.includes(hazard as Hazard));
});

test('where anything is coated: the washer, waste water, wet paint and the weight of pails, each with its source', () => {
  const all = cautions({});
  for (const pattern of [
    /^Pressure washer: never point/,
    /storm drain/,
    /^Wet paint is slippery/,
    /two people/,
  ])
    expect(all.filter((c) => pattern.test(c.words)).length).toBe(1);
  for (const c of all) expect(sourceText(c.source).length, c.words).toBeGreaterThan(5);
  expect(sourceText(all[0]!.source)).toContain('NIOSH Update 93-117, 10 May 1993');
  expect(cautions({ systemId: null })).toEqual([]);
});

test('old paint that stays as it is beside a coated slab brings no caution about lead', () => {
  expect(words({}, { condition: 'painted', systemId: null }).join()).not.toContain('may hold lead');
  expect(words({}, { condition: 'painted' }).join()).toContain('may hold lead');
});

test('nothing is said twice, however many slabs call for it', () => {
  const all = words({}, {}, { preparation: 'grind' }, { condition: 'painted', preparation: 'abrade' });
  expect(new Set(all).size).toBe(all.length);
});
