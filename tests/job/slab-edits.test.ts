import { expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, type Job } from '../../src/job/types.ts';
import { edited, oneSlab, refusal, slabEdit } from '../coating/scene.ts';

// Slabs and cuts as they are drawn, described, loosened and taken away, written out by hand.

const JOB = oneSlab();
type Corner = readonly [id: string, x: number, y: number, via?: { x: number; y: number }];
const slab = (id: string, list: readonly Corner[]): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: id.toUpperCase(),
    sheetId: 'g',
    corners: list.map(([corner, x, y, via]) => ({ id: corner, x, y, via: via ?? null })),
    surface: DEFAULT_SURFACE,
  },
});
/** Beside the first slab of 10 m by 8 m, with which it shares a1 and a2. */
const NEIGHBOUR = slab('b', [
  ['a1', 10, 0],
  ['b1', 14, 0],
  ['b2', 14, 8],
  ['a2', 10, 8],
]);
const TWO = edited(JOB, NEIGHBOUR);
const side = (args: object): Edit => ({
  type: 'update-side',
  args: { slabId: 'a', cornerId: 'a1', ...args },
});
const loosen = (corners: Record<string, string>): Edit => ({
  type: 'loosen-slab',
  args: { slabId: 'b', corners },
});

test('a slab takes the corners that are there, and keeps where they lie', () => {
  const job = edited(
    JOB,
    slab('b', [
      ['a1', 99, 99],
      ['b1', 14, 0],
      ['a2', 99, 99],
    ]),
  );
  expect(job.corners.a1).toEqual(JOB.corners.a1);
  expect(job.corners.b1).toEqual({ id: 'b1', sheetId: 'g', x: 14, y: 0 });
  expect(job.slabs.b).toMatchObject({ name: 'B', sheetId: 'g', slope: 0 });
  expect(job.slabs.b!.corners).toEqual([
    { cornerId: 'a1', via: null, beyond: null },
    { cornerId: 'b1', via: null, beyond: null },
    { cornerId: 'a2', via: null, beyond: null },
  ]);
  expect(refusal(JOB, { type: 'add-slab', args: { ...NEIGHBOUR.args, sheetId: 'z' } } as Edit)).toMatchObject(
    {
      code: 'entity/missing',
      what: 'sheet',
    },
  );
  expect(
    refusal(
      JOB,
      slab('b', [
        ['a1', 10, 0],
        ['b1', 14, 0],
      ]),
    ),
  ).toMatchObject({ code: 'outline/too-few' });
});

test('a curve that a neighbour has is taken over, whichever way round; its own is kept', () => {
  const via = { x: 10.5, y: 4 };
  const bent = edited(JOB, side({ via }));
  expect(edited(bent, NEIGHBOUR).slabs.b!.corners.map((c) => c.via)).toEqual([null, null, null, via]);
  // Drawn the same way round as the neighbour, over its ground.
  const over = slab('b', [
    ['a1', 10, 0],
    ['a2', 10, 8],
    ['b1', 2, 4],
  ]);
  expect(edited(bent, over).slabs.b!.corners.map((c) => c.via)).toEqual([via, null, null]);
  const own = { x: 10.4, y: 4 };
  const with_ = slab('b', [
    ['a1', 10, 0],
    ['b1', 14, 0],
    ['a2', 10, 8, own],
  ]);
  expect(edited(bent, with_).slabs.b!.corners[2]!.via).toEqual(own);
});

test('a slope from level to two up on one along; a face up to 100 m', () => {
  const slope = (value: number): Edit => ({ type: 'update-slab', args: { slabId: 'a', slope: value } });
  for (const good of [0, 0.08, 2]) expect(edited(JOB, slope(good)).slabs.a!.slope).toBe(good);
  for (const bad of [-0.01, 2.01, Number.NaN])
    expect(refusal(JOB, slope(bad))).toMatchObject({ code: 'value/out-of-range', low: 0, high: 2 });
  for (const good of [0, 0.15, 100])
    expect(edited(JOB, side({ faceUpM: good })).slabs.a!.corners[1]!.faceUpM).toBe(good);
  for (const bad of [-0.01, 100.1, Number.NaN])
    expect(refusal(JOB, side({ faceUpM: bad }))).toMatchObject({ code: 'value/out-of-range', high: 100 });
});

test('a slab and its sides change in what is said, and in nothing else', () => {
  const named = edited(JOB, { type: 'update-slab', args: { slabId: 'a', name: 'Bay' } });
  expect(named.slabs.a).toEqual({ ...JOB.slabs.a!, name: 'Bay' });
  const rough = edited(JOB, {
    type: 'update-slab',
    args: { slabId: 'a', surface: { texture: 'heavy-broom' } },
  });
  expect(rough.slabs.a).toEqual({
    ...JOB.slabs.a!,
    surface: { ...JOB.slabs.a!.surface, texture: 'heavy-broom' },
  });
  const sides = edited(JOB, side({ beyond: 'wall' })).slabs.a!.corners;
  expect(sides.map((c) => c.beyond)).toEqual([null, 'wall', null, null]);
  expect(refusal(JOB, { type: 'update-slab', args: { slabId: 'z' } })).toMatchObject({ what: 'slab' });
  expect(refusal(JOB, side({ slabId: 'z' }))).toMatchObject({ what: 'slab', id: 'z' });
  expect(refusal(JOB, side({ cornerId: 'z' }))).toMatchObject({ what: 'side', id: 'z' });
  // A bend through the far side is no outline.
  expect(refusal(JOB, side({ via: { x: -0.5, y: 4 } }))).toMatchObject({ code: 'outline/self-crossing' });
});

test('loosened, a slab and its cuts have corners of their own in the same places', () => {
  const cut: Edit = {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'b',
      points: [
        { at: 'corner', cornerId: 'a1' },
        { at: 'side', cornerId: 'b2', t: 0.5 },
      ],
    },
  };
  const mine: Edit = {
    type: 'add-cut',
    args: {
      id: 'm',
      slabId: 'a',
      points: [
        { at: 'corner', cornerId: 'a1' },
        { at: 'corner', cornerId: 'a3' },
      ],
    },
  };
  const job = edited(TWO, cut, mine, loosen({ a1: 'n1', a2: 'n2' }));
  expect(job.slabs.b!.corners.map((c) => c.cornerId)).toEqual(['n1', 'b1', 'b2', 'n2']);
  expect(job.slabs.a).toEqual(TWO.slabs.a);
  expect(job.corners.n1).toEqual({ ...TWO.corners.a1!, id: 'n1' });
  expect(job.cuts.k!.points.map((p) => p.cornerId)).toEqual(['n1', 'b2']);
  expect(job.cuts.m!.points.map((p) => p.cornerId)).toEqual(['a1', 'a3']);
  // A corner that only it had is gone under its old name.
  expect(Object.keys(edited(TWO, loosen({ b1: 'n1' })).corners).sort()).toEqual([
    'a0',
    'a1',
    'a2',
    'a3',
    'b2',
    'n1',
  ]);
});

test('loosening takes no name that is taken and loses no corner', () => {
  expect(refusal(TWO, loosen({ a1: 'a0' }))).toMatchObject({ code: 'entity/missing', id: 'a0' });
  expect(refusal(TWO, { type: 'loosen-slab', args: { slabId: 'z', corners: {} } })).toMatchObject({
    what: 'slab',
  });
  // Corners that are not there are passed over.
  expect(edited(TWO, loosen({ z: 'n1' }))).toEqual(TWO);
  const lost: Job = { ...TWO, corners: { ...TWO.corners } };
  delete (lost.corners as Record<string, unknown>).b1;
  expect(refusal(lost, loosen({ b1: 'n1' }))).toMatchObject({
    code: 'entity/missing',
    what: 'corner',
    id: 'n1',
  });
});

test('a slab goes with its own cuts and descriptions, and leaves those of others', () => {
  const tag = (id: string, slabId: string): Edit => ({
    type: 'set-tag',
    args: { id, slabId, anchor: { x: 1, y: 1 }, name: '', surface: {} },
  });
  const cut = (id: string, slabId: string, a: string, b: string): Edit => ({
    type: 'add-cut',
    args: {
      id,
      slabId,
      points: [
        { at: 'corner', cornerId: a },
        { at: 'corner', cornerId: b },
      ],
    },
  });
  const job = edited(TWO, tag('t', 'a'), tag('u', 'b'), cut('k', 'a', 'a0', 'a2'), cut('l', 'b', 'a1', 'b2'));
  const gone = edited(job, { type: 'remove-slab', args: { slabId: 'b' } });
  expect([Object.keys(gone.slabs), Object.keys(gone.tags), Object.keys(gone.cuts)]).toEqual([
    ['a'],
    ['t'],
    ['k'],
  ]);
  expect(Object.keys(gone.corners).sort()).toEqual(['a0', 'a1', 'a2', 'a3']);
  expect(refusal(job, { type: 'remove-slab', args: { slabId: 'z' } })).toMatchObject({ what: 'slab' });
  expect(refusal(job, { type: 'remove-cut', args: { cutId: 'z' } })).toMatchObject({ what: 'cut' });
  expect(Object.keys(edited(job, { type: 'remove-cut', args: { cutId: 'l' } }).cuts)).toEqual(['k']);
});

test('a cut has two points at least, and a length; corners made for it go with it', () => {
  const cut = (...points: Array<readonly [string, number, number]>): Edit => ({
    type: 'add-cut',
    args: { id: 'k', slabId: 'a', points: points.map(([id, x, y]) => ({ at: 'place', id, x, y })) },
  });
  expect(refusal(JOB, cut())).toMatchObject({ code: 'cut/too-short', what: 'The cut across “A”' });
  expect(refusal(JOB, cut(['n', 1, 1]))).toMatchObject({ code: 'cut/too-short' });
  expect(refusal(JOB, cut(['n', 1, 1], ['m', 1, 1]))).toMatchObject({ code: 'cut/too-short' });
  const job = edited(JOB, cut(['n', 1, 1], ['m', 1, 2]));
  expect(job.corners.m).toEqual({ id: 'm', sheetId: 'g', x: 1, y: 2 });
  expect(job.cuts.k!.points).toEqual([
    { at: 'corner', cornerId: 'n' },
    { at: 'corner', cornerId: 'm' },
  ]);
  expect(edited(job, { type: 'remove-cut', args: { cutId: 'k' } })).toEqual(JOB);
  expect(refusal(JOB, { type: 'add-cut', args: { id: 'k', slabId: 'z', points: [] } })).toMatchObject({
    what: 'slab',
  });
  // Level with the last or below it, a cut still has a length.
  expect(Object.keys(edited(JOB, cut(['n', 1, 1], ['m', 2, 1])).cuts)).toEqual(['k']);
});

test('a moved corner must leave every cut through it a length', () => {
  const job = edited(edited(JOB, slabEdit('b', [20, 4, 4])), {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'corner', cornerId: 'a0' },
        { at: 'place', id: 'n', x: 3, y: 3 },
      ],
    },
  });
  const move = (x: number, y: number): Edit => ({ type: 'move-corner', args: { cornerId: 'n', x, y } });
  expect(refusal(job, move(0, 0))).toMatchObject({ code: 'cut/too-short' });
  expect(edited(job, move(1, 0)).corners.n).toMatchObject({ x: 1, y: 0 });
});
