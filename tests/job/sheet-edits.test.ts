import { expect, test } from 'vitest';
import { type Edit, editLabel } from '../../src/job/edits/index.ts';
import type { Fit, Tape, VoidShape } from '../../src/job/types.ts';
import type { Problem } from '../../src/problem.ts';
import { edited, oneSlab, refusal, slabEdit } from '../coating/scene.ts';

// What is expected is what was put in, or what the sentence says is wrong with it.

const missing = (what: string, id: string) => ({ code: 'entity/missing', what, id });

/** Two slabs on a grid that share no corner, and a photo with one of its own. */
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
    type: 'add-slab',
    args: {
      ...(slabEdit('c', [0, 5, 5]) as Extract<Edit, { type: 'add-slab' }>).args,
      sheetId: 'h',
    },
  },
);

test('tapes: between different corners of one sheet in metres, of some length', () => {
  const tape = (t: Partial<Tape> & { readonly kind: Tape['kind'] }): Edit => ({
    type: 'set-tape',
    args: { id: 't', ...t } as Tape,
  });
  const side = { kind: 'distance', a: 'a0', b: 'a1', lengthM: 10 } as const;
  const job = edited(JOB, tape(side), { type: 'set-tape', args: { id: 'u', ...side, lengthM: 9.9 } });
  expect(job.tapes).toEqual({ t: { id: 't', ...side }, u: { id: 'u', ...side, lengthM: 9.9 } });
  // Corners of two slabs are as good.
  expect(refusal(JOB, tape({ ...side, b: 'b0' }))).toBeNull();
  expect(refusal(JOB, tape({ ...side, b: 'a0' }))).toEqual({
    code: 'tape/corners',
    what: 'A taped distance',
  });
  expect(refusal(JOB, tape({ ...side, b: 'zz' }))).toEqual(missing('corner', 'zz'));
  expect(refusal(JOB, tape({ ...side, b: 'c0' }))?.code).toBe('tape/sheet');
  expect(refusal(JOB, tape({ ...side, a: 'c0', b: 'c1' }))).toEqual({ code: 'tape/sheet', sheet: 'Photo' });
  for (const lengthM of [0, -1, Number.NaN])
    expect(refusal(JOB, tape({ ...side, lengthM }))).toEqual({ code: 'scale/zero', what: 'length' });
  expect(editLabel(tape(side))).toBe('Note a taped distance');

  const left = edited(job, { type: 'remove-tape', args: { tapeId: 't' } });
  expect(Object.keys(left.tapes!)).toEqual(['u']);
  for (const from of [JOB, left])
    expect(refusal(from, { type: 'remove-tape', args: { tapeId: 't' } })).toEqual(missing('tape', 't'));
  // A tape goes with its corner.
  expect(edited(job, { type: 'remove-corner', args: { cornerId: 'a1' } }).tapes ?? {}).toEqual({});
});

test('corners are placed together, with the arcs between them; a missing one changes nothing', () => {
  const bent = edited(JOB, {
    type: 'update-side',
    args: { slabId: 'a', cornerId: 'a0', via: { x: 5, y: -2 } },
  });
  const job = edited(bent, {
    type: 'place-corners',
    args: { places: { a0: { x: 1, y: 1 }, a1: { x: 11, y: 1 } } },
  });
  expect(job.corners.a0).toMatchObject({ x: 1, y: 1, sheetId: 'g' });
  expect(job.slabs.a!.corners[0]!.via).toEqual({ x: 6, y: -1 });
  expect(job.slabs.b).toBe(bent.slabs.b);
  const given = edited(bent, {
    type: 'place-corners',
    args: { places: { a0: { x: 0, y: 0.5 } }, vias: { a: { a0: { x: 5, y: -3 } } } },
  });
  expect(given.slabs.a!.corners[0]!.via).toEqual({ x: 5, y: -3 });
  expect(refusal(JOB, { type: 'place-corners', args: { places: { zz: { x: 0, y: 0 } } } })).toEqual(
    missing('corner', 'zz'),
  );
  // Over the side across from it the outline crosses itself.
  expect(refusal(JOB, { type: 'place-corners', args: { places: { a0: { x: 12, y: 6 } } } })?.code).toBe(
    'outline/self-crossing',
  );
});

test('what is taken out has a size and a sheet; it is changed field by field and put back', () => {
  const put = (shape: VoidShape, sheetId = 'g'): Edit => ({
    type: 'add-void',
    args: { id: 'v', name: 'V', kind: 'pit', sheetId, shape },
  });
  const at = { x: 1, y: 1 };
  const round: VoidShape = { type: 'circle', centre: at, radiusM: 0.2 };
  const none = { code: 'void/no-size', what: 'The pit “V”' };
  const shapes: Array<readonly [VoidShape, Problem | null]> = [
    [round, null],
    [{ ...round, radiusM: 0 }, none],
    [{ type: 'rectangle', centre: at, lengthM: 1, widthM: 0.5, angleRad: 0 }, null],
    [{ type: 'rectangle', centre: at, lengthM: 0, widthM: 0.5, angleRad: 0 }, none],
    [{ type: 'rectangle', centre: at, lengthM: 1, widthM: -0.5, angleRad: 0 }, none],
    [{ type: 'line', a: at, b: { x: 2, y: 1 }, widthM: 0.1 }, null],
    [{ type: 'line', a: at, b: { x: 2, y: 1 }, widthM: 0 }, none],
    [{ type: 'circle', centre: at, radiusM: Number.NaN }, none],
  ] as Array<readonly [VoidShape, Problem | null]>;
  for (const [shape, problem] of shapes)
    expect(refusal(JOB, put(shape)), JSON.stringify(shape)).toEqual(problem);
  expect(refusal(JOB, put(round, 'zz'))).toEqual(missing('sheet', 'zz'));
  expect(editLabel(put(round))).toBe('Take out a pit');

  const job = edited(JOB, put(round));
  const update = (change: object, voidId = 'v'): Edit => ({
    type: 'update-void',
    args: { voidId, ...change },
  });
  expect(edited(job, update({ name: 'Tree', kind: 'planter' })).voids.v).toEqual({
    id: 'v',
    name: 'Tree',
    kind: 'planter',
    sheetId: 'g',
    shape: round,
  });
  expect(refusal(job, update({ shape: { ...round, radiusM: 0 } }))).toEqual(none);
  expect(refusal(job, update({}, 'zz'))).toEqual(missing('void', 'zz'));
  expect(edited(job, { type: 'remove-void', args: { voidId: 'v' } }).voids).toEqual({});
  expect(refusal(JOB, { type: 'remove-void', args: { voidId: 'v' } })).toEqual(missing('void', 'v'));
});

test('a sheet goes with all that is drawn on it, and with the pictures that were straightened from it', () => {
  const full = edited(
    JOB,
    {
      type: 'add-void',
      args: {
        id: 'v',
        name: 'V',
        kind: 'post',
        sheetId: 'g',
        shape: { type: 'circle', centre: { x: 1, y: 1 }, radiusM: 0.1 },
      },
    },
    { type: 'set-tag', args: { id: 't', slabId: 'a', anchor: { x: 2, y: 2 }, name: 'T', surface: {} } },
    { type: 'set-tape', args: { id: 'm', kind: 'distance', a: 'a0', b: 'a1', lengthM: 10 } },
    {
      type: 'add-cut',
      args: {
        id: 'k',
        slabId: 'a',
        points: [
          { at: 'side', cornerId: 'a0', t: 0.5 },
          { at: 'side', cornerId: 'a2', t: 0.5 },
        ],
      },
    },
  );
  const grid = edited(full, { type: 'remove-sheet', args: { sheetId: 'g' } });
  expect([Object.keys(grid.sheets), Object.keys(grid.slabs), Object.keys(grid.corners)]).toEqual([
    ['h'],
    ['c'],
    ['c0', 'c1', 'c2', 'c3'],
  ]);
  expect([grid.cuts, grid.voids, grid.tags, grid.tapes ?? {}]).toEqual([{}, {}, {}, {}]);

  const photo = edited(full, { type: 'remove-sheet', args: { sheetId: 'h' } });
  expect(Object.keys(photo.slabs)).toEqual(['a', 'b']);
  expect([photo.cuts, photo.voids, photo.tags, photo.tapes]).toEqual([
    full.cuts,
    full.voids,
    full.tags,
    full.tapes,
  ]);
  const straight = edited(full, {
    type: 'add-sheet',
    args: { id: 's', name: 'Straight', picture: null, fit: { kind: 'straightened', sheetId: 'h' } as never },
  });
  expect(Object.keys(edited(straight, { type: 'remove-sheet', args: { sheetId: 'h' } }).sheets)).toEqual([
    'g',
  ]);
  expect(Object.keys(edited(straight, { type: 'remove-sheet', args: { sheetId: 's' } }).sheets)).toEqual([
    'g',
    'h',
  ]);
  expect(refusal(full, { type: 'remove-sheet', args: { sheetId: 'zz' } })).toEqual(missing('sheet', 'zz'));
});

test('scales need lines with a length; pictures and scales need their sheet', () => {
  const scale = (lengthM: number, x = 5): Fit =>
    ({ kind: 'scale', stretched: false, lengths: [{ a: { x: 0, y: 0 }, b: { x, y: 0 }, lengthM }] }) as never;
  const set = (fit: Fit, sheetId = 'h'): Edit => ({ type: 'set-fit', args: { sheetId, fit } });
  expect(edited(JOB, set(scale(2))).sheets.h!.fit).toEqual(scale(2));
  for (const lengthM of [0, -2, Number.NaN])
    expect(refusal(JOB, set(scale(lengthM)))).toEqual({ code: 'scale/zero', what: 'length' });
  expect(refusal(JOB, set(scale(2, 0)))).toEqual({ code: 'scale/zero', what: 'line' });
  expect(refusal(JOB, set(scale(2), 'zz'))).toEqual(missing('sheet', 'zz'));
  const picture = { imageId: 'j', widthPx: 10, heightPx: 10 };
  const job = edited(JOB, { type: 'set-picture', args: { sheetId: 'h', picture } });
  expect(job.sheets.h).toEqual({ ...JOB.sheets.h, picture });
  expect(refusal(JOB, { type: 'set-picture', args: { sheetId: 'zz', picture } })).toEqual(
    missing('sheet', 'zz'),
  );
});
