import { expect, test } from 'vitest';
import { remarksOn } from '../../src/job/checks/index.ts';
import { byId, byName, nameSorter } from '../../src/job/order.ts';
import type { Job } from '../../src/job/types.ts';
import { emptyJob } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import type { Takeoff } from '../../src/takeoff/zone.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// Each remark on the case it is for, and silence just beside it: limits from the sentences themselves.

const remarks = (job: Job, takeoff: Takeoff = results(job).takeoff) => remarksOn(job, takeoff);
const codes = (job: Job, takeoff?: Takeoff) => remarks(job, takeoff).map((r) => r.code);
const JOB = oneSlab();
const TAKEOFF = results(JOB).takeoff;
const zones = (change: Partial<Takeoff['zones'][number]>): Takeoff => ({
  ...TAKEOFF,
  zones: TAKEOFF.zones.map((z) => ({ ...z, ...change })),
});
const area = (value: number) => ({ ...TAKEOFF.zones[0]!.netArea, value });

test('a sound slab has nothing said of it; a job without slabs is told what comes next', () => {
  expect(codes(JOB)).toEqual([]);
  const [empty] = remarks(emptyJob('j', 'J'));
  expect(empty).toMatchObject({ code: 'job/empty', severity: 'note', where: null, fixes: [] });
  expect(empty!.sentence).toContain('open a plan or start a blank grid');
  const sheet = edited(emptyJob('j', 'J'), {
    type: 'add-sheet',
    args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } },
  });
  expect(remarks(sheet)[0]!.sentence).toBe(
    'There is no slab yet: take the Slab tool and trace the first slab.',
  );
});

test('zones that are covered, or nowhere wider than 2 cm', () => {
  const label = (clearance: number) => ({ point: { x: 0, y: 0 }, clearance });
  expect(codes(JOB, zones({ netArea: area(0), label: label(1) }))).toContain('zone/covered');
  expect(codes(JOB, zones({ netArea: area(1e-9), label: null }))).toContain('zone/covered');
  expect(codes(JOB, zones({ netArea: area(2e-9), label: null }))).toContain('zone/sliver');
  expect(codes(JOB, zones({ label: label(0.0099) }))).toContain('zone/sliver');
  expect(codes(JOB, zones({ label: label(0.01) }))).toEqual([]);
  expect(remarks(JOB, zones({ label: null }))[0]).toMatchObject({
    severity: 'mind',
    where: TAKEOFF.zones[0]!.id,
  });
});

test('areas that a second engine does not confirm', () => {
  for (const secondOpinion of ['disagree', 'no answer'] as const)
    expect(codes(JOB, zones({ secondOpinion }))).toEqual(['area/unconfirmed']);
  expect(codes(JOB, zones({ secondOpinion: 'agree' }))).toEqual([]);
});

test('slabs that cover the same ground, from 10 cm² on', () => {
  const two = edited(JOB, slabEdit('b', [12, 3, 3]));
  const base = results(two).takeoff;
  const over = (areaM2: number): Takeoff => ({ ...base, overlaps: [{ a: 'a', b: 'b', areaM2 }] });
  expect(codes(two, over(1e-3))).toEqual([]);
  const [found] = remarks(two, over(1.234));
  expect(found).toMatchObject({ code: 'slab/overlap', where: 'a' });
  expect(found!.sentence).toContain('“A” and “B” cover the same 1.23 m²');
  // As it is found: 2 m by 3 m of the second lie on the first.
  const real = edited(JOB, slabEdit('b', [8, 4, 3]));
  expect(remarks(real).find((r) => r.code === 'slab/overlap')!.sentence).toContain('6.00 m²');
});

test('what is taken out of nothing can be deleted from the remark', () => {
  const post = (id: string, x: number, kind: 'post' | 'other' = 'post') =>
    edited(JOB, {
      type: 'add-void',
      args: {
        id,
        name: 'P',
        kind,
        sheetId: 'g',
        shape: { type: 'circle', centre: { x, y: 4 }, radiusM: 0.1 },
      },
    });
  expect(codes(post('p', 5))).toEqual([]);
  const [out] = remarks(post('p', 50));
  expect(out).toMatchObject({ code: 'void/outside', severity: 'mind', where: 'p' });
  expect(out!.sentence).toContain('The post “P” lies outside every slab');
  expect(remarks(post('p', 50, 'other'))[0]!.sentence).toContain('The void “P”');
  expect(codes(edited(post('p', 50), out!.fixes[0]!.edit))).toEqual([]);
  const job = post('p', 50);
  const takeoff = results(job).takeoff;
  const inside = (insideAreaM2: number) => ({ ...takeoff, voids: [{ id: 'p', insideAreaM2 }] });
  expect(codes(job, inside(1e-4))).toEqual([]);
  expect(codes(job, inside(0.99e-4))).toEqual(['void/outside']);
  // Beyond a photo's horizon it is that which is said.
  expect(codes(job, { ...takeoff, unseen: ['p'] })).toEqual(['fit/horizon']);
});

test('cuts that split nothing, and descriptions that lie in no zone or in the same', () => {
  const cut = edited(JOB, {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'side', cornerId: 'a0', t: 0.5 },
        { at: 'place', id: 'in', x: 5, y: 3 },
      ],
    },
  });
  const [idle] = remarks(cut);
  expect(idle).toMatchObject({ code: 'cut/no-effect', where: 'k' });
  expect(codes(edited(cut, idle!.fixes[0]!.edit))).toEqual([]);
  expect(codes(cut, { ...results(cut).takeoff, unscaled: ['a'] })).not.toContain('cut/no-effect');

  const tag = (id: string, x: number, name: string) => ({
    id,
    slabId: 'a',
    anchor: { x, y: 4 },
    name,
    surface: {},
  });
  const two = edited(
    JOB,
    { type: 'set-tag', args: tag('t', 2, 'Bay') },
    { type: 'set-tag', args: tag('u', 8, '') },
  );
  const [both] = remarks(two);
  expect(both).toMatchObject({ code: 'tag/two-in-one', severity: 'mind' });
  expect(both!.sentence).toContain('Two descriptions, “Bay” and “unnamed”, lie in one zone');
  expect(both!.fixes.map((f) => f.label)).toEqual(['Drop “unnamed”']);
  expect(codes(edited(two, both!.fixes[0]!.edit))).toEqual([]);

  const stray = edited(JOB, { type: 'set-tag', args: tag('t', 50, '') });
  const [out] = remarks(stray);
  expect(out).toMatchObject({ code: 'tag/outside', where: 't' });
  expect(out!.sentence).toContain('The description “unnamed” lies in no zone of “A”');
  expect(codes(edited(stray, out!.fixes[0]!.edit))).toEqual([]);
  expect(codes(stray, { ...results(stray).takeoff, unscaled: ['a'] })).toEqual([]);
});

test('photos: beyond the horizon, or held too loosely by their marks', () => {
  const [beyond] = remarks(JOB, { ...TAKEOFF, unseen: ['a'] });
  expect(beyond).toMatchObject({ code: 'fit/horizon', severity: 'stop', where: 'a' });
  expect(beyond!.sentence).toContain('The slab “A” reaches to or beyond the horizon of “Grid”');
  const held = (kind: string): Job => ({
    ...JOB,
    sheets: { g: { ...JOB.sheets.g!, fit: { kind } as never } },
  });
  const unsure = (share: number) => zones({ area95: area(share * 80), netArea: area(80) });
  const sheetless = (t: Takeoff): Takeoff => ({ ...t, sheets: [] });
  for (const kind of ['marks', 'straightened']) {
    expect(codes(held(kind), sheetless(unsure(0.05)))).not.toContain('fit/weak');
    const found = remarks(held(kind), sheetless(unsure(0.08))).find((r) => r.code === 'fit/weak');
    expect(found!.sentence).toContain('known only to ± 8 %');
  }
  expect(codes(held('metric'), sheetless(unsure(0.5)))).not.toContain('fit/weak');
});

test('a scale is believed only so far from the length that gave it', () => {
  const scale = (distanceM: number): Job => ({
    ...JOB,
    sheets: {
      g: {
        ...JOB.sheets.g!,
        fit: {
          kind: 'scale',
          stretched: false,
          lengths: [{ a: { x: 4, y: 4 }, b: { x: 6, y: 4 }, lengthM: 2 }],
          reach: { distanceM, reason: 'taken at an angle' },
        } as never,
      },
    },
  });
  // The corners lie √(5² + 4²) = 6.403 m from the middle of the length.
  const said = (distanceM: number) =>
    remarks(scale(distanceM), TAKEOFF).find((r) => r.code === 'fit/beyond-reach');
  expect(said(6.41)).toBeUndefined();
  expect(said(6.4)!.sentence).toContain('4 corners lie more than 6.4 m from the known length');
  const one: Job = { ...scale(6.41), corners: { ...JOB.corners, a0: { ...JOB.corners.a0!, x: -1 } } };
  expect(remarks(one, TAKEOFF).find((r) => r.code === 'fit/beyond-reach')!.sentence).toContain(
    '1 corner lies',
  );
  const elsewhere: Job = { ...one, corners: { a0: { ...one.corners.a0!, sheetId: 'h' } } };
  expect(codes(elsewhere, TAKEOFF)).not.toContain('fit/beyond-reach');
});

test('names are sorted as people do, then by id; the order is found anew when a name changes', () => {
  const named = (name: string, id: string) => ({ name, id });
  const list = [named('Bay 10', 'a'), named('bay 2', 'b'), named('Bay 2', 'c'), named('Apron', 'd')];
  expect([...list].sort(byName).map((x) => x.id)).toEqual(['d', 'b', 'c', 'a']);
  expect(
    [...list]
      .reverse()
      .sort(byName)
      .map((x) => x.id),
  ).toEqual(['d', 'b', 'c', 'a']);
  expect(
    [...list]
      .reverse()
      .sort(byId)
      .map((x) => x.id),
  ).toEqual(['a', 'b', 'c', 'd']);
  expect([byId(list[0]!, list[0]!), byName(list[0]!, list[0]!)]).toEqual([0, 0]);
  const sorted = nameSorter();
  expect(sorted(list).map((x) => x.id)).toEqual(['d', 'b', 'c', 'a']);
  const same = list.map((x) => ({ ...x }));
  expect(sorted(same)).toEqual([same[3], same[1], same[2], same[0]]);
  expect(sorted(same)[0]).toBe(same[3]);
  expect(sorted([named('Bay 1', 'a'), ...list.slice(1)]).map((x) => x.id)).toEqual(['d', 'a', 'b', 'c']);
});
