import { describe, expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job, type VoidShape } from '../../src/job/types.ts';
import { results, resultsKeeper } from '../../src/results.ts';
import { stretchName } from '../../src/takeoff/describe.ts';
import type { ZoneTakeoff } from '../../src/takeoff/zone.ts';
import { edited } from '../coating/scene.ts';

/* Every number here is worked out by hand from the sketch beside it; the rules of edges are common practice, no source. */

const metric: Edit = {
  type: 'add-sheet',
  args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } },
};
const slab = (
  id: string,
  corners: ReadonlyArray<readonly [id: string, x: number, y: number]>,
  sheetId = 'g',
): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: id.toUpperCase(),
    sheetId,
    corners: corners.map(([c, x, y]) => ({ id: c, x, y, via: null })),
    surface: DEFAULT_SURFACE,
  },
});
const side = (cornerId: string, t: number) => ({ at: 'side', cornerId, t }) as const;
const cut = (id: string, slabId: string, from: string, t: number, to: string, u: number): Edit => ({
  type: 'add-cut',
  args: { id, slabId, points: [side(from, t), side(to, u)] },
});
const tag = (id: string, slabId: string, x: number, y: number, name = '', surface = {}): Edit => ({
  type: 'set-tag',
  args: { id, slabId, anchor: { x, y }, name, surface },
});

/**
 * Slab A, 10 × 6 m, sloping 3 in 4, cut at x = 4; slab B, 4 × 6 m, beside it at x = 10; a drain of 4 × 0.2 m across the
 * cut, a post of 0.1 m radius in B.
 */
const site = (): Job =>
  edited(
    emptyJob('j', 'Site'),
    metric,
    slab('a', [
      ['a0', 0, 0],
      ['a1', 10, 0],
      ['a2', 10, 6],
      ['a3', 0, 6],
    ]),
    slab('b', [
      ['a1', 10, 0],
      ['b1', 14, 0],
      ['b2', 14, 6],
      ['a2', 10, 6],
    ]),
    { type: 'update-slab', args: { slabId: 'a', slope: 0.75 } },
    cut('k', 'a', 'a0', 0.4, 'a2', 0.6),
    {
      type: 'add-void',
      args: {
        id: 'drain',
        name: 'Drain',
        kind: 'drain',
        sheetId: 'g',
        shape: { type: 'line', a: { x: 2, y: 3 }, b: { x: 6, y: 3 }, widthM: 0.2 },
      },
    },
    {
      type: 'add-void',
      args: {
        id: 'post',
        name: 'Post',
        kind: 'post',
        sheetId: 'g',
        shape: { type: 'circle', centre: { x: 12, y: 3 }, radiusM: 0.1 },
      },
    },
  );

const zones = (job: Job) => results(job).takeoff.zones;
const named = (job: Job, name: string): ZoneTakeoff => zones(job).find((z) => z.name === name)!;
const edges = (z: ZoneTakeoff) =>
  z.stretches
    .map(
      (s) =>
        `${stretchName(s)} ${s.lengthM.toFixed(2)}${s.brushed ? ' cut in' : ''}${s.masked ? ' taped' : ''}`,
    )
    .sort();

describe('a sloping slab cut in two beside another', () => {
  test('areas on the slope, what is taken out of each, and the sums by slab', () => {
    const job = site();
    // √(1 + 0.75²) = 1.25.
    const left = named(job, 'A A');
    const right = named(job, 'A B');
    const b = named(job, 'B');
    expect(left.netArea.value).toBeCloseTo((24 - 0.4) * 1.25, 9);
    expect(right.netArea.value).toBeCloseTo((36 - 0.4) * 1.25, 9);
    expect(b.netArea.value).toBeCloseTo(24 - Math.PI * 0.01, 9);
    expect([left.faceAreaM2, left.voidAreaM2]).toEqual([expect.closeTo(30, 9), expect.closeTo(0.5, 9)]);
    expect(left.voids).toEqual([{ id: 'drain', name: 'Drain', areaM2: expect.closeTo(0.5, 9) }]);
    expect(left.netArea.inputs!.V!.inputs).toMatchObject({
      v1: { name: 'Drain', value: expect.closeTo(0.4, 9) },
    });
    expect(left.netArea.inputs!.V!.explanation).toContain('overlaps count once');
    const { slabs, voids } = results(job).takeoff;
    expect(slabs.map((s) => [s.name, s.outlineAreaM2, s.voidAreaM2, s.netAreaM2])).toEqual([
      ['A', expect.closeTo(75, 9), expect.closeTo(1, 9), expect.closeTo(74, 9)],
      ['B', expect.closeTo(24, 9), expect.closeTo(0.0314159, 6), expect.closeTo(23.9685841, 6)],
    ]);
    expect(voids).toEqual([
      { id: 'drain', insideAreaM2: expect.closeTo(0.8, 9) },
      { id: 'post', insideAreaM2: expect.closeTo(Math.PI * 0.01, 9) },
    ]);
    expect(results(job).takeoff.overlaps).toEqual([]);
    expect(left.netArea.inputs!.F!.source).toEqual({ kind: 'measured', how: 'entered in metres' });
  });

  test('every edge by what is there, with what is done along it', () => {
    const job = site();
    // The cut has the same coating on both sides: nothing is done along it.
    expect(edges(named(job, 'A A'))).toEqual([
      'around Drain 4.20 cut in taped',
      'cut to A B 5.80',
      'side 1 4.00 cut in',
      'side 3 4.00 cut in',
      'side 4 6.00 cut in',
    ]);
    expect(edges(named(job, 'B'))).toEqual([
      'along A 6.00 cut in taped',
      'around Post 0.63 cut in',
      'side 1 4.00 cut in',
      'side 2 6.00 cut in',
      'side 3 4.00 cut in',
    ]);
    const left = named(job, 'A A');
    expect(left.boundary.value).toBeCloseTo(24, 9);
    expect(left.cutIn.value).toBeCloseTo(18.2, 9);
    expect(left.masked.value).toBeCloseTo(4.2, 9);
    expect(Object.keys(left.boundary.inputs!).sort()).toEqual(['B1', 'B2', 'B3', 'B4', 'B5']);
    const across = left.stretches.find((s) => s.kind === 'cut')!;
    expect(across).toMatchObject({ ref: 'a/2', cutId: 'k', side: null, beyond: null });
    const along = named(job, 'A B').stretches.find((s) => s.kind === 'slab')!;
    expect(along).toMatchObject({ ref: 'b', refName: 'B', cutId: null, side: 1, beyond: 'slab' });
    expect(named(job, 'A A').stretches.find((s) => s.refName === 'side 4')).toMatchObject({
      ref: 'a3',
      side: 3,
    });
  });

  test('another colour, or another system, across the cut is cut in and taped on both sides', () => {
    for (const surface of [{ colour: 'sand' }, { systemId: 'solvent-borne-paving' }]) {
      const job = edited(site(), tag('t', 'a', 1, 1, 'Walk', surface));
      expect(edges(named(job, 'Walk'))).toContain('cut to A B 5.80 cut in taped');
      expect(edges(named(job, 'A B'))).toContain('cut to Walk 5.80 cut in taped');
      expect(named(job, 'Walk').surface).toEqual({ ...DEFAULT_SURFACE, ...surface });
    }
    const same = edited(site(), tag('t', 'a', 1, 1, 'Walk', { texture: 'exposed-aggregate' }));
    expect(edges(named(same, 'A B'))).toContain('cut to Walk 5.80');
  });

  test('what stands beyond a side decides, also where another slab lies there', () => {
    const beyond = (
      cornerId: string,
      what: 'open' | 'wall' | 'fence' | 'kerb' | 'planting' | 'threshold',
    ): Edit => ({
      type: 'update-side',
      args: { slabId: 'a', cornerId, beyond: what },
    });
    const job = edited(site(), beyond('a0', 'open'), beyond('a3', 'fence'), beyond('a1', 'wall'));
    expect(edges(named(job, 'A A'))).toContain('side 1 (open) 4.00');
    expect(edges(named(job, 'A A'))).toContain('side 4 (fence) 6.00 cut in');
    expect(named(job, 'A B').stretches.find((s) => s.kind === 'slab')).toMatchObject({
      beyond: 'wall',
      masked: true,
    });
    for (const what of ['kerb', 'wall', 'threshold'] as const)
      expect(edges(named(edited(site(), beyond('a3', what)), 'A A'))).toContain(
        `side 4 (${what}) 6.00 cut in taped`,
      );
  });

  test('a face up along a side, and one along a neighbour', () => {
    const up = (cornerId: string, faceUpM: number): Edit => ({
      type: 'update-side',
      args: { slabId: 'a', cornerId, faceUpM },
    });
    const job = edited(site(), up('a3', 0.15), up('a1', 0.1));
    expect(named(job, 'A A').facesUp.value).toBeCloseTo(0.9, 9);
    expect(named(job, 'A A').coatedArea.value).toBeCloseTo(29.5 + 0.9, 9);
    expect(named(job, 'A B').facesUp.value).toBeCloseTo(0.6, 9);
    expect(named(job, 'B').coatedArea.value).toBe(named(job, 'B').netArea.value);
    expect(named(job, 'B').coatedArea.formula).toBe(named(job, 'B').netArea.formula);
    expect(named(job, 'B').facesUp.value).toBe(0);
  });

  test('the brushed band lies along what is cut in, and is wider with a wider brush', () => {
    const job = site();
    // B by hand: 75 mm along 4 × 6 m on all sides, and about the post of 0.1 m radius.
    const band = 24 - 3.85 * 5.85 + Math.PI * (0.175 ** 2 - 0.1 ** 2);
    expect(named(job, 'B').brushArea.value).toBeCloseTo(band, 3);
    expect(named(job, 'B').rollerArea.value).toBeCloseTo(24 - Math.PI * 0.01 - band, 3);
    const open: Edit = { type: 'update-side', args: { slabId: 'b', cornerId: 'b1', beyond: 'open' } };
    expect(named(edited(job, open), 'B').brushArea.value).toBeCloseTo(
      24 - 3.925 * 5.85 + Math.PI * (0.175 ** 2 - 0.1 ** 2),
      3,
    );
    const wide: Edit = { type: 'set-value', args: { key: 'measure.brush-width', value: 150 } };
    expect(named(edited(job, wide), 'B').brushArea.value).toBeCloseTo(
      24 - 3.7 * 5.7 + Math.PI * (0.25 ** 2 - 0.1 ** 2),
      3,
    );
    expect(named(edited(job, wide), 'B').brushArea.inputs!.w!.value).toBe(150);
    // On the slope it is longer by as much as the slab is. A brush wider than the slab brushes all of it.
    const flat: Edit = { type: 'update-slab', args: { slabId: 'a', slope: 0 } };
    expect(named(job, 'A A').brushArea.value / named(edited(job, flat), 'A A').brushArea.value).toBeCloseTo(
      1.25,
      9,
    );
    const whole: Edit = { type: 'set-value', args: { key: 'measure.brush-width', value: 500 } };
    const narrow = edited(
      emptyJob('n', 'N'),
      metric,
      whole,
      slab('n', [
        ['n0', 0, 0],
        ['n1', 5, 0],
        ['n2', 5, 0.8],
        ['n3', 0, 0.8],
      ]),
    );
    expect(zones(narrow)[0]!.brushArea.value).toBeCloseTo(4, 9);
    expect(zones(narrow)[0]!.rollerArea.value).toBeCloseTo(0, 9);
  });

  test('area for payment on the slope: what the rule leaves in is paid for', () => {
    const rule: Edit = {
      type: 'change-settings',
      args: { measuringRule: { id: 'nrm2-29', voidsUpToM2: null } },
    };
    const job = edited(site(), rule);
    expect(named(job, 'A A').paymentArea.value).toBeCloseTo(30, 9);
    expect(named(job, 'A A').paymentArea.explanation).toContain('1 of 1 taken out stay in');
    expect(named(site(), 'A A').paymentArea.value).toBeCloseTo(29.5, 9);
    expect(named(site(), 'A A').paymentArea.explanation).toContain('nothing is left in');
    const din: Edit = {
      type: 'change-settings',
      args: { measuringRule: { id: 'din-18363', voidsUpToM2: null } },
    };
    expect(named(edited(site(), din), 'A A').paymentArea.explanation).toContain('lines up to 0.3 m wide');
  });

  test('uncertainties grow with the slope', () => {
    const flat = edited(site(), { type: 'update-slab', args: { slabId: 'a', slope: 0 } });
    const [u, v] = [named(site(), 'A A').areaUncertainty, named(flat, 'A A').areaUncertainty];
    expect(u.value / v.value).toBeCloseTo(1.25, 6);
    expect(u.inputs!.P!.inputs!.u!.unit).toBe('m');
    expect(named(site(), 'A A').area95.value).toBeCloseTo(1.96 * u.value, 9);
    // In metres nothing moves all corners together.
    expect(u.inputs!.F!.value).toBe(0);
  });

  test('a circle is an outline with true arcs, a label lies within', () => {
    const b = named(site(), 'B');
    expect(b.netOutlines).toHaveLength(2);
    expect(b.netOutlines.flat().some((v) => v.via)).toBe(true);
    expect(b.label!.point.x).toBeGreaterThan(10);
    expect(b.label!.point.x).toBeLessThan(14);
  });
});

describe('names and tags', () => {
  const long = (cuts: readonly Edit[]) =>
    edited(
      emptyJob('j', 'J'),
      metric,
      slab('a', [
        ['a0', 0, 0],
        ['a1', 28, 0],
        ['a2', 28, 4],
        ['a3', 0, 4],
      ]),
      ...cuts,
    );

  test('zones are counted from the left, with letters while there are any', () => {
    const cuts = Array.from({ length: 27 }, (_, i) =>
      cut(`k${26 - i}`, 'a', 'a0', (i + 1) / 28, 'a2', (27 - i) / 28),
    );
    const all = zones(long(cuts));
    expect(all).toHaveLength(28);
    const at = (z: ZoneTakeoff) => Math.min(...z.faceRings.flat().map((p) => p.x));
    const names = [...all].sort((p, q) => at(p) - at(q)).map((z) => z.name);
    expect([names[0], names[1], names[25], names[26], names[27]]).toEqual([
      'A A',
      'A B',
      'A Z',
      'A 27',
      'A 28',
    ]);
    expect(all.map((z) => z.id)).toContain('a/28');
  });

  test('one above the other, the upper goes first; a slab in one piece goes by its own name', () => {
    const job = long([cut('k', 'a', 'a3', 0.5, 'a1', 0.5)]);
    const upper = zones(job).find((z) => z.faceRings.flat().some((p) => p.y > 3.9))!;
    expect([upper.id, upper.name]).toEqual(['a/1', 'A A']);
    expect(zones(long([])).map((z) => [z.id, z.name, z.tagId, z.tagIds])).toEqual([['a/1', 'A', null, []]]);
  });

  test('a tag names and describes the zone that its place lies in; of two the first by id, and both are told', () => {
    const job = edited(
      long([cut('k', 'a', 'a0', 0.5, 'a2', 0.5)]),
      tag('t2', 'a', 2, 1, 'Second', { colour: 'red' }),
      tag('t1', 'a', 3, 2, 'First', { traffic: 'car' }),
      tag('t3', 'a', 20, 2),
    );
    const [left, right] = ['First', 'A B'].map((name) => named(job, name));
    expect([left!.id, left!.tagId, left!.tagIds]).toEqual(['t1', 't1', ['t1', 't2']]);
    expect(left!.surface).toEqual({ ...DEFAULT_SURFACE, traffic: 'car' });
    // Without a name of its own it is counted as the others are.
    expect([right!.id, right!.tagIds]).toEqual(['t3', ['t3']]);
  });

  test('a tag of another slab that lies over it says nothing', () => {
    const job = edited(site(), tag('t', 'b', 1, 1, 'Stray'));
    expect(zones(job).map((z) => z.name)).toEqual(['A A', 'A B', 'B']);
  });
});

describe('sheets', () => {
  const square = (id: string, sheetId: string, size: number) =>
    slab(
      id,
      [
        [`${id}0`, 0, 0],
        [`${id}1`, size, 0],
        [`${id}2`, size, size],
        [`${id}3`, 0, size],
      ],
      sheetId,
    );
  const sheet = (id: string, fit: object | null): Edit => ({
    type: 'add-sheet',
    args: { id, name: `Sheet ${id}`, picture: null, fit: fit as never },
  });

  test('what lies on a sheet without a scale is named and measured nowhere, until it has one', () => {
    const job = edited(
      emptyJob('j', 'J'),
      metric,
      sheet('p', null),
      square('z', 'p', 3),
      square('y', 'p', 2),
      square('m', 'g', 2),
      {
        type: 'add-void',
        args: {
          id: 'v',
          name: 'V',
          kind: 'pit',
          sheetId: 'p',
          shape: { type: 'circle', centre: { x: 1, y: 1 }, radiusM: 0.2 },
        },
      },
    );
    const { takeoff } = results(job);
    expect(takeoff.unscaled).toEqual(['y', 'z']);
    expect(takeoff.zones.map((z) => z.slabId)).toEqual(['m']);
    expect(takeoff.sheets.map((s) => [s.id, 'frame' in s.fit])).toEqual([
      ['g', true],
      ['p', false],
    ]);
    expect(takeoff.voids).toEqual([{ id: 'v', insideAreaM2: 0 }]);
    const scaled = edited(job, {
      type: 'set-fit',
      args: { sheetId: 'p', fit: { kind: 'drawing', metresPerUnit: 0.5 } },
    });
    expect(zones(scaled).map((z) => [z.slabId, z.sheetId, z.faceAreaM2])).toEqual([
      ['m', 'g', 4],
      ['y', 'p', expect.closeTo(1, 9)],
      ['z', 'p', expect.closeTo(2.25, 9)],
    ]);
    expect(zones(scaled)[1]!.netArea.inputs!.F!.source).toEqual({
      kind: 'measured',
      how: 'traced on “Sheet p”',
    });
  });

  test('slabs that lie over each other are told with the area of both', () => {
    const job = edited(
      emptyJob('j', 'J'),
      metric,
      square('a', 'g', 3),
      slab('b', [
        ['b0', 2, 1],
        ['b1', 6, 1],
        ['b2', 6, 2.5],
        ['b3', 2, 2.5],
      ]),
    );
    const [over] = results(job).takeoff.overlaps;
    expect([over!.a, over!.b].sort()).toEqual(['a', 'b']);
    expect(over!.areaM2).toBeCloseTo(1.5, 9);
  });

  test('sides traced twice by eye are one where the sheet is a picture, and two where lengths were entered', () => {
    const two = (fit: object) =>
      edited(
        emptyJob('j', 'J'),
        sheet('p', fit),
        square('a', 'p', 3),
        slab(
          'b',
          [
            ['b0', 3.003, 0],
            ['b1', 6, 0],
            ['b2', 6, 3],
            ['b3', 3.003, 3],
          ],
          'p',
        ),
      );
    const kinds = (job: Job) => zones(job).map((z) => z.stretches.filter((s) => s.kind === 'slab').length);
    const lengths = [{ a: { x: 0, y: 0 }, b: { x: 3, y: 0 }, lengthM: 3 }];
    expect(kinds(two({ kind: 'scale', lengths, reach: null }))).toEqual([1, 1]);
    expect(kinds(two({ kind: 'metric' }))).toEqual([0, 0]);
    const tight: Edit = { type: 'set-value', args: { key: 'measure.weld', value: 1 } };
    expect(kinds(edited(two({ kind: 'scale', lengths, reach: null }), tight))).toEqual([0, 0]);
  });

  test('farther away than anybody stands is not measured', () => {
    const far = edited(
      emptyJob('j', 'J'),
      sheet('p', { kind: 'drawing', metresPerUnit: 10 }),
      square('a', 'p', 2),
      slab(
        'b',
        [
          ['b0', 2e5, 0],
          ['b1', 2e5 + 2, 0],
          ['b2', 2e5 + 2, 2],
          ['b3', 2e5, 2],
        ],
        'p',
      ),
      {
        type: 'add-void',
        args: {
          id: 'v',
          name: 'V',
          kind: 'pit',
          sheetId: 'p',
          shape: { type: 'line', a: { x: 0, y: 0 }, b: { x: 2e5, y: 0 }, widthM: 1 },
        },
      },
    );
    expect(results(far).takeoff.unseen).toEqual(['b', 'v']);
    expect(zones(far).map((z) => z.slabId)).toEqual(['a']);
    // 1,000 km is what anybody may stand on; a curve that reaches beyond does not count, whatever its ends.
    const out = (shape: VoidShape): Edit => ({
      type: 'add-void',
      args: { id: 'w', name: 'W', kind: 'pit', sheetId: 'p', shape },
    });
    const unseen = (shape: VoidShape) => results(edited(far, out(shape))).takeoff.unseen.includes('w');
    const corner = (x: number, y: number, via: { x: number; y: number } | null = null) => ({ x, y, via });
    expect(unseen({ type: 'circle', centre: { x: 1e5, y: 0 }, radiusM: 1 })).toBe(false);
    expect(unseen({ type: 'circle', centre: { x: 1e5 + 1, y: 0 }, radiusM: 1 })).toBe(true);
    expect(
      unseen({ type: 'rectangle', centre: { x: 0, y: -1e5 - 1 }, lengthM: 1, widthM: 1, angleRad: 0 }),
    ).toBe(true);
    const near = [corner(0, 0), corner(1, 0), corner(1, 1)];
    expect(unseen({ type: 'outline', corners: near })).toBe(false);
    expect(unseen({ type: 'outline', corners: [corner(0, 0), corner(1e5 + 1, 0), corner(1, 1)] })).toBe(true);
    expect(
      unseen({ type: 'outline', corners: [corner(0, 0, { x: 1e5, y: -2e5 }), corner(1e5, 0), corner(1, 1)] }),
    ).toBe(true);
    const bent = edited(far, {
      type: 'update-side',
      args: { slabId: 'a', cornerId: 'a0', via: { x: 1, y: -2e5 } },
    });
    expect(results(bent).takeoff.unseen).toEqual(['a', 'b', 'v']);
  });

  test('what was one line is two, and one again, as the reach of the eye is set', () => {
    const lengths = [{ a: { x: 0, y: 0 }, b: { x: 3, y: 0 }, lengthM: 3 }];
    const job = edited(
      emptyJob('j', 'J'),
      sheet('p', { kind: 'scale', lengths, reach: null }),
      square('a', 'p', 3),
      slab(
        'b',
        [
          ['b0', 3.003, 0],
          ['b1', 6, 0],
          ['b2', 6, 3],
          ['b3', 3.003, 3],
        ],
        'p',
      ),
    );
    const weld = (mm: number) => edited(job, { type: 'set-value', args: { key: 'measure.weld', value: mm } });
    const keep = resultsKeeper();
    const shared = (j: Job) =>
      keep(j).takeoff.zones.map((z) => z.stretches.filter((s) => s.kind === 'slab').length);
    expect([shared(job), shared(weld(1)), shared(weld(20))]).toEqual([
      [1, 1],
      [0, 0],
      [1, 1],
    ]);
    // As one line they leave no gap of 3 mm between them.
    const net = (j: Job) => keep(j).takeoff.zones.reduce((sum, z) => sum + z.netArea.value, 0);
    expect(net(job)).toBeCloseTo(18, 9);
    expect(net(weld(1))).toBeCloseTo(18 - 0.009, 9);
  });
});
