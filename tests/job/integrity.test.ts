import { expect, test } from 'vitest';
import { findStructureProblem, slabProblem, tapeCorners, voidProblem } from '../../src/job/integrity.ts';
import type { Job, Void } from '../../src/job/types.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// One thing is damaged in a sound job; what is said names it. Limits are those of the sentences.

const JOB = edited(
  oneSlab(),
  slabEdit('b', [12, 3, 3]),
  {
    type: 'add-sheet',
    args: {
      id: 'h',
      name: 'Photo',
      picture: { imageId: 'i', widthPx: 100, heightPx: 80 },
      fit: { kind: 'drawing', metresPerUnit: 0.1 },
    },
  },
  {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'side', cornerId: 'a0', t: 0.5 },
        { at: 'place', id: 'm', x: 5, y: 3 },
        { at: 'side', cornerId: 'a2', t: 0.5 },
      ],
    },
  },
  {
    type: 'add-void',
    args: {
      id: 'v',
      name: 'P',
      kind: 'post',
      sheetId: 'g',
      shape: { type: 'circle', centre: { x: 2, y: 2 }, radiusM: 0.1 },
    },
  },
  { type: 'set-tag', args: { id: 't', slabId: 'a', anchor: { x: 2, y: 2 }, name: 'T', surface: {} } },
  { type: 'set-tape', args: { id: 'd', kind: 'distance', a: 'a0', b: 'a1', lengthM: 10 } },
);

type MapName = 'sheets' | 'corners' | 'slabs' | 'cuts' | 'voids' | 'tags' | 'tapes';

/** The job with an entity as no edit would make it. */
const damaged = (map: MapName, id: string, change: object): Job => ({
  ...JOB,
  [map]: { ...JOB[map], [id]: { ...(JOB[map] as Record<string, object>)[id], ...change } },
});
const path = (at: string, id: string) => ({ code: 'job/reference', path: `job.${at}`, id });

test('a sound job has no problem, looked at whole or against what it was', () => {
  expect(findStructureProblem(JOB)).toBeNull();
  expect(findStructureProblem(JOB, oneSlab())).toBeNull();
  expect(findStructureProblem(JOB, JOB)).toBeNull();
});

test.each(['sheets', 'corners', 'slabs', 'cuts', 'voids', 'tags', 'tapes'] as const)(
  'an entry of %s goes by its own id',
  (map) => {
    const id = Object.keys(JOB[map]!)[0]!;
    expect(findStructureProblem(damaged(map, id, { id: 'other' }))).toEqual(path(`${map}.${id}.id`, 'other'));
  },
);

const square = { at: 'side', cornerId: 'a0', t: 0.5 };
test.each([
  ['corners', 'a0', { sheetId: 'zz' }, 'corners.a0.sheetId', 'zz'],
  ['slabs', 'a', { sheetId: 'zz' }, 'slabs.a.sheetId', 'zz'],
  ['cuts', 'k', { slabId: 'zz' }, 'cuts.k.slabId', 'zz'],
  ['cuts', 'k', { points: [square, { at: 'corner', cornerId: 'zz' }] }, 'cuts.k.points.1.cornerId', 'zz'],
  // A side belongs to the slab that is cut.
  [
    'cuts',
    'k',
    { points: [square, { at: 'side', cornerId: 'b0', t: 0.5 }] },
    'cuts.k.points.1.cornerId',
    'b0',
  ],
  ['voids', 'v', { sheetId: 'zz' }, 'voids.v.sheetId', 'zz'],
  ['tags', 't', { slabId: 'zz' }, 'tags.t.slabId', 'zz'],
  ['tapes', 'd', { b: 'zz' }, 'tapes.d', 'zz'],
  ['sheets', 'h', { fit: { kind: 'straightened', sheetId: 'zz' } }, 'sheets.h.fit.sheetId', 'zz'],
  ['sheets', 'h', { fit: { kind: 'straightened', sheetId: 'toString' } }, 'sheets.h.fit.sheetId', 'toString'],
  // A straightened picture is made from a photo, not from itself.
  ['sheets', 'h', { fit: { kind: 'straightened', sheetId: 'h' } }, 'sheets.h.fit.sheetId', 'h'],
] as const)('%s.%s with %o leads nowhere', (map, id, change, at, names) => {
  expect(findStructureProblem(damaged(map, id, change))).toEqual(path(at, names));
});

test('corners of a slab are there, and on its sheet', () => {
  const corners = JOB.slabs.a!.corners.map((c, k) => (k === 2 ? { ...c, cornerId: 'zz' } : c));
  expect(findStructureProblem(damaged('slabs', 'a', { corners }))).toEqual(
    path('slabs.a.corners.2.cornerId', 'zz'),
  );
  expect(findStructureProblem(damaged('corners', 'a1', { sheetId: 'h' }))).toEqual(
    path('slabs.a.corners.1.cornerId', 'a1'),
  );
});

test('numbers beyond any site, and none at all, are refused; the last good ones are not', () => {
  for (const x of [1.01e6 * 1000, Number.NaN, Infinity])
    expect(findStructureProblem(damaged('corners', 'a0', { x }))).toEqual({
      code: 'coordinate/too-large',
      what: 'A corner',
    });
  const shape = { type: 'circle', centre: { x: 2e9, y: 0 }, radiusM: 0.1 };
  expect(findStructureProblem(damaged('voids', 'v', { shape }))).toEqual({
    code: 'coordinate/too-large',
    what: 'The post “P”',
  });
});

test('scales and tapes of a sheet that cannot be', () => {
  const scale = (lengthM: number, x: number) =>
    damaged('sheets', 'h', {
      fit: { kind: 'scale', stretched: false, lengths: [{ a: { x: 0, y: 0 }, b: { x, y: 0 }, lengthM }] },
    });
  expect(findStructureProblem(scale(1, 100))).toBeNull();
  for (const none of [0, -1, Number.NaN])
    expect(findStructureProblem(scale(none, 100))).toEqual({ code: 'scale/zero', what: 'length' });
  expect(findStructureProblem(scale(1, 1e-6))).toEqual({ code: 'scale/zero', what: 'line' });
  const range = {
    code: 'value/out-of-range',
    what: 'The scale, in metres for each unit of the sheet,',
    low: 1e-6,
    high: 1000,
  };
  for (const [lengthM, x] of [
    [1001, 1],
    [0.99e-4, 100],
  ] as const)
    expect(findStructureProblem(scale(lengthM, x))).toEqual(range);
  for (const [lengthM, x] of [
    [1000, 1],
    [1e-4, 100],
  ] as const)
    expect(findStructureProblem(scale(lengthM, x))).toBeNull();
  const marks = (a: number, b: number) =>
    damaged('sheets', 'h', {
      fit: {
        kind: 'marks',
        marks: [0, 1, 2, 3].map((i) => ({ x: 10 * i, y: i * i })),
        known: {
          type: 'tapes',
          tapes: [
            { a: 0, b: 1, lengthM: 1 },
            { a, b, lengthM: 1 },
          ],
        },
      },
    });
  expect(findStructureProblem(marks(2, 3))).toBeNull();
  for (const [a, b] of [
    [2, 2],
    [4, 1],
    [1, 4],
  ] as const)
    expect(findStructureProblem(marks(a, b))).toEqual({ code: 'marks/tape', a: a + 1, b: b + 1, count: 4 });
});

test('outlines: too few corners, one of them twice, crossing themselves, or without ground', () => {
  const outline = (
    ids: readonly string[],
    places: Readonly<Record<string, readonly [number, number]>> = {},
    via = false,
  ) => {
    const corners = Object.fromEntries(
      Object.values(JOB.corners).map((c) => [
        c.id,
        places[c.id] ? { ...c, x: places[c.id]![0], y: places[c.id]![1] } : c,
      ]),
    );
    const slab = {
      ...JOB.slabs.a!,
      corners: ids.map((cornerId, k) => ({
        cornerId,
        via: via && k === 0 ? { x: 5, y: -4 } : null,
        beyond: null,
      })),
    };
    const job: Job = { ...JOB, corners, slabs: { a: slab }, cuts: {}, tags: {}, tapes: {} };
    expect(findStructureProblem(job)).toEqual(slabProblem(job, slab));
    return slabProblem(job, slab);
  };
  const what = 'The slab “A”';
  expect(outline(['a0', 'a1', 'a2'])).toBeNull();
  expect(outline(['a0', 'a1'])).toEqual({ code: 'outline/too-few', what });
  expect(outline(['a0', 'a1'], {}, true)).toBeNull();
  expect(outline(['a0', 'a1', 'a2', 'a1'])).toMatchObject({
    code: 'outline/self-crossing',
    what,
    x: 10,
    y: 0,
  });
  expect(outline(['a0', 'a2', 'a1', 'a3'])).toMatchObject({
    code: 'outline/self-crossing',
    what,
    x: 5,
    y: 4,
  });
  expect(outline(['a0', 'a1', 'a2'], { a2: [5, 0] })).toEqual({ code: 'outline/no-area', what });
  expect(outline(['a0', 'a1', 'a2'], { a2: [5, 1e-9] })).toEqual({ code: 'outline/no-area', what });
});

test('what is taken out: lines with two ends, outlines that hold ground', () => {
  const v = (shape: Void['shape'], kind: Void['kind'] = 'drain'): Void => ({
    id: 'v',
    name: 'V',
    kind,
    sheetId: 'g',
    shape,
  });
  const at = { x: 1, y: 1 };
  expect(voidProblem(v({ type: 'line', a: at, b: { ...at }, widthM: 1 }))).toEqual({
    code: 'void/no-size',
    what: 'The drain “V”',
  });
  for (const b of [
    { x: 1, y: 2 },
    { x: 2, y: 1 },
  ])
    expect(voidProblem(v({ type: 'line', a: at, b, widthM: 1 }))).toBeNull();
  const corners = (...xy: ReadonlyArray<readonly [number, number]>) =>
    xy.map(([x, y]) => ({ x, y, via: null }));
  const outline = (list: ReturnType<typeof corners>) =>
    voidProblem(v({ type: 'outline', corners: list }, 'other'));
  const what = 'The void “V”';
  expect(outline(corners([0, 0], [2, 0], [2, 2]))).toBeNull();
  expect(outline(corners([0, 0], [2, 0]))).toEqual({ code: 'outline/too-few', what });
  expect(outline([{ x: 0, y: 0, via: { x: 1, y: 1 } as never }, ...corners([2, 0])])).toBeNull();
  expect(outline(corners([0, 0], [2, 2], [2, 0], [0, 2]))).toEqual({
    code: 'outline/self-crossing',
    what,
    x: 1,
    y: 1,
  });
  expect(outline(corners([0, 0], [2, 0], [1, 1e-9]))).toEqual({ code: 'outline/no-area', what });
});

test('a cut without length; a tape’s corners in order', () => {
  const still = damaged('cuts', 'k', { points: [square, square] });
  expect(findStructureProblem(still)).toEqual({ code: 'cut/too-short', what: 'The cut across “A”' });
  expect(tapeCorners({ id: 'x', kind: 'square', at: 'a', a: 'b', b: 'c' } as never)).toEqual(['a', 'b', 'c']);
  expect(tapeCorners({ id: 'x', kind: 'offset', a: 'a', b: 'b', corner: 'c' } as never)).toEqual([
    'a',
    'b',
    'c',
  ]);
  expect(tapeCorners({ id: 'x', kind: 'distance', a: 'a', b: 'b' } as never)).toEqual(['a', 'b']);
});

test('against what it was, only what changed is looked at closely: outlines, voids and cuts', () => {
  // Each is damaged in both: nobody looks. Damaged only now: found.
  const flat = damaged('corners', 'b2', { x: 13, y: 0 });
  const bad: Job = { ...flat, corners: { ...flat.corners, b3: { ...flat.corners.b3!, x: 14, y: 0 } } };
  expect(findStructureProblem(bad, JOB)?.code).toMatch(/^outline/);
  expect(findStructureProblem(bad, bad)).toBeNull();
  const still = damaged('cuts', 'k', { points: [square, square] });
  expect(findStructureProblem(still, JOB)?.code).toBe('cut/too-short');
  expect(findStructureProblem(still, still)).toBeNull();
  const line = damaged('voids', 'v', {
    shape: { type: 'line', a: { x: 1, y: 1 }, b: { x: 1, y: 1 }, widthM: 1 },
  });
  expect(findStructureProblem(line, JOB)?.code).toBe('void/no-size');
  expect(findStructureProblem(line, line)).toBeNull();
});
