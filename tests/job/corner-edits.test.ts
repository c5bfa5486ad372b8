import { expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import { DEFAULT_SURFACE, emptyJob, type Job } from '../../src/job/types.ts';
import { edited, refusal } from '../coating/scene.ts';

// Corners moved, put in and taken out, by plane geometry in the head: sides of 4 m and 3 m.

const slab = (id: string, list: ReadonlyArray<readonly [string, number, number]>): Edit => ({
  type: 'add-slab',
  args: {
    id,
    name: id.toUpperCase(),
    sheetId: 'g',
    corners: list.map(([corner, x, y]) => ({ id: corner, x, y, via: null })),
    surface: DEFAULT_SURFACE,
  },
});
const RIGHT = [
  ['2', 4, 0],
  ['5', 8, 0],
  ['6', 8, 3],
  ['3', 4, 3],
] as const;
/** Two slabs side by side that share the side from 2 to 3; the second travels it the other way. */
const JOB = edited(
  emptyJob('j', 'Job'),
  { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
  slab('a', [
    ['1', 0, 0],
    ['2', 4, 0],
    ['3', 4, 3],
    ['4', 0, 3],
  ]),
  slab('b', RIGHT),
);
const cut = (id: string, slabId: string, ...points: Array<readonly [string, number] | string>): Edit => ({
  type: 'add-cut',
  args: {
    id,
    slabId,
    points: points.map((p) =>
      typeof p === 'string' ? { at: 'corner', cornerId: p } : { at: 'side', cornerId: p[0], t: p[1] },
    ),
  },
});
const insert = (cornerId: string, t: number, slabId = 'a'): Edit => ({
  type: 'insert-corner',
  args: { slabId, cornerId, newId: 'n', t },
});
const remove = (cornerId: string): Edit => ({ type: 'remove-corner', args: { cornerId } });
const names = (job: Job, id: string) => job.slabs[id]!.corners.map((c) => c.cornerId).join('');

test('a corner goes into the side asked for, and into the same side of a neighbour', () => {
  const shared = edited(JOB, insert('2', 0.25));
  expect([names(shared, 'a'), names(shared, 'b')]).toEqual(['12n34', '2563n']);
  expect(shared.corners.n).toMatchObject({ id: 'n', sheetId: 'g', x: 4, y: 0.75 });
  // Asked of the neighbour, who travels it the other way.
  const other = edited(JOB, insert('3', 0.25, 'b'));
  expect([names(other, 'a'), names(other, 'b')]).toEqual(['12n34', '2563n']);
  expect(other.corners.n).toMatchObject({ x: 4, y: 2.25 });
  // The last side runs back to the first corner.
  const last = edited(JOB, insert('4', 0.5));
  expect([names(last, 'a'), names(last, 'b')]).toEqual(['1234n', '2563']);
  expect(last.corners.n).toMatchObject({ x: 0, y: 1.5 });
});

test('a neighbour whose side bends away between the same corners keeps it', () => {
  const bent: Edit = { type: 'update-side', args: { slabId: 'a', cornerId: '2', via: { x: 3.5, y: 1.5 } } };
  const split = edited(JOB, bent, insert('2', 0.5));
  expect([names(split, 'a'), names(split, 'b')]).toEqual(['12n34', '2563']);
  expect(split.corners.n!.x).toBeCloseTo(3.5, 12);
  expect(split.corners.n!.y).toBeCloseTo(1.5, 12);
});

test('an arc is the same curve in two parts', () => {
  // A half circle about (4, 1.5) of 1.5 m: at t the angle from (4, 0) has turned by 180° × t.
  const bend: Edit = { type: 'update-side', args: { slabId: 'a', cornerId: '2', via: { x: 5.5, y: 1.5 } } };
  const both = edited(JOB, { type: 'remove-slab', args: { slabId: 'b' } }, bend, slab('b', RIGHT));
  const job = edited(both, insert('2', 1 / 3));
  const at = (degrees: number) => {
    const a = ((degrees - 90) * Math.PI) / 180;
    return { x: 4 + 1.5 * Math.cos(a), y: 1.5 + 1.5 * Math.sin(a) };
  };
  const near = (p: { x: number; y: number } | null | undefined, degrees: number) => {
    expect(p!.x).toBeCloseTo(at(degrees).x, 9);
    expect(p!.y).toBeCloseTo(at(degrees).y, 9);
  };
  near(job.corners.n, 60);
  const [, first, second] = job.slabs.a!.corners;
  near(first!.via, 30);
  near(second!.via, 120);
  // The neighbour got the same curve, and travels it the other way.
  const [, , , fromThree, fromNew] = job.slabs.b!.corners;
  near(fromThree!.via, 120);
  near(fromNew!.via, 30);
});

test('what stands beyond a side stands beyond both its parts; faces up stay', () => {
  const wall: Edit = { type: 'update-side', args: { slabId: 'a', cornerId: '1', beyond: 'wall' } };
  const job = edited(JOB, wall, insert('1', 0.5));
  expect(job.slabs.a!.corners.slice(0, 3).map((c) => c.beyond)).toEqual([
    'wall',
    'wall',
    JOB.slabs.a!.corners[1]!.beyond,
  ]);
});

test('cuts end where they ended: at a share of the part they are on', () => {
  const job = edited(
    JOB,
    cut('k', 'a', ['1', 0.2], ['3', 0.5]),
    cut('l', 'a', ['1', 0.8], ['3', 0.2]),
    insert('1', 0.4),
  );
  const ends = (id: string) => job.cuts[id]!.points;
  expect(ends('k')[0]).toMatchObject({ at: 'side', cornerId: '1' });
  expect((ends('k')[0] as { t: number }).t).toBeCloseTo(0.5, 12);
  expect(ends('l')[0]).toMatchObject({ at: 'side', cornerId: 'n' });
  expect((ends('l')[0] as { t: number }).t).toBeCloseTo((0.8 - 0.4) / 0.6, 12);
  expect(ends('k')[1]).toEqual({ at: 'side', cornerId: '3', t: 0.5 });
  // One that ends at the very place ends at the end of the first part.
  const there = edited(JOB, cut('k', 'a', ['1', 0.4], ['3', 0.5]), insert('1', 0.4));
  expect(there.cuts.k!.points[0]).toEqual({ at: 'side', cornerId: '1', t: 1 });
  // In the neighbour the share runs from the other end; cuts of other slabs through the same corner stay.
  const both = edited(
    JOB,
    cut('k', 'b', ['3', 0.5], ['5', 0.5]),
    cut('l', 'a', ['2', 0.5], ['4', 0.5]),
    insert('2', 0.25),
  );
  expect(both.cuts.k!.points[0]).toMatchObject({ cornerId: '3' });
  expect((both.cuts.k!.points[0] as { t: number }).t).toBeCloseTo(0.5 / 0.75, 12);
  expect(both.cuts.l!.points[0]).toMatchObject({ cornerId: 'n' });
  expect((both.cuts.l!.points[0] as { t: number }).t).toBeCloseTo(0.25 / 0.75, 12);
});

test('no corner goes onto another, into no side, or into nothing', () => {
  for (const t of [0, 1, -0.1, 1.1, Number.NaN])
    expect(refusal(JOB, insert('1', t))).toMatchObject({ code: 'corner/coincides' });
  expect(refusal(JOB, insert('5', 0.5))).toMatchObject({ code: 'entity/missing', what: 'side', id: '5' });
  expect(refusal(JOB, insert('1', 0.5, 'z'))).toMatchObject({
    code: 'entity/missing',
    what: 'slab',
    id: 'z',
  });
});

test('a corner taken out leaves one straight side in every slab that had it', () => {
  const job = edited(JOB, insert('2', 0.25), remove('n'));
  expect([names(job, 'a'), names(job, 'b')]).toEqual(['1234', '2563']);
  expect(job.corners.n).toBeUndefined();
  // The arc of the side before goes, that of the side after the corner too.
  const bends: Edit[] = [
    { type: 'update-side', args: { slabId: 'a', cornerId: '4', via: { x: -0.5, y: 1.5 } } },
    { type: 'update-side', args: { slabId: 'a', cornerId: '1', via: { x: 2, y: -0.5 } } },
  ];
  const flat = edited(JOB, ...bends, remove('1'));
  expect(names(flat, 'a')).toBe('234');
  expect(flat.slabs.a!.corners.map((c) => c.via)).toEqual([null, null, null]);
});

test('cuts that end on the joined sides go to the nearest place of the new one; others stay', () => {
  // Without corner 1 the side runs from (0, 3) to (4, 0).
  const job = edited(
    JOB,
    cut('k', 'a', ['1', 0.5], ['2', 0.5]),
    cut('l', 'a', ['4', 0.5], ['3', 0.25]),
    remove('1'),
  );
  const share = (x: number, y: number) => (x * 4 + (y - 3) * -3) / 25;
  expect(job.cuts.k!.points[0]).toMatchObject({ at: 'side', cornerId: '4' });
  expect((job.cuts.k!.points[0] as { t: number }).t).toBeCloseTo(share(2, 0), 12);
  expect((job.cuts.l!.points[0] as { t: number }).t).toBeCloseTo(share(0, 1.5), 12);
  expect([job.cuts.k!.points[1], job.cuts.l!.points[1]]).toEqual([
    { at: 'side', cornerId: '2', t: 0.5 },
    { at: 'side', cornerId: '3', t: 0.25 },
  ]);
});

test('a cut loses the corner it ran through, and goes when nothing is left to cut', () => {
  const more = edited(JOB, insert('1', 0.5));
  const job = edited(
    more,
    cut('k', 'a', 'n', ['3', 0.5]),
    cut('l', 'a', '1', 'n', ['3', 0.25]),
    cut('m', 'a', '1', '3'),
    remove('n'),
  );
  expect(Object.keys(job.cuts)).toEqual(['l', 'm']);
  expect(job.cuts.l!.points).toEqual([
    { at: 'corner', cornerId: '1' },
    { at: 'side', cornerId: '3', t: 0.25 },
  ]);
});

test('a slab keeps three corners', () => {
  const three = edited(JOB, remove('1'));
  expect(refusal(three, remove('4'))).toMatchObject({ code: 'corner/needed', slab: 'A' });
  expect(refusal(JOB, remove('z'))).toMatchObject({ code: 'entity/missing', what: 'corner' });
});

test('a corner is moved with all that meets there, and not onto its neighbour', () => {
  const move = (cornerId: string, x: number, y: number): Edit => ({
    type: 'move-corner',
    args: { cornerId, x, y },
  });
  const job = edited(JOB, move('2', 5, 0));
  expect(job.corners['2']).toMatchObject({ id: '2', sheetId: 'g', x: 5, y: 0 });
  expect(job.slabs.a!.corners).toEqual(JOB.slabs.a!.corners);
  // Sides that do not end there are the same as they were.
  expect(job.slabs.a!.corners[2]).toBe(JOB.slabs.a!.corners[2]);
  for (const [x, y] of [
    [4, 3],
    [0, 0],
    [8, 0],
  ] as const)
    expect(refusal(JOB, move('2', x, y))).toMatchObject({ code: 'corner/coincides' });
  expect(edited(JOB, move('2', 4, 1)).corners['2']).toMatchObject({ x: 4, y: 1 });
  expect(refusal(JOB, move('z', 1, 1))).toMatchObject({ code: 'entity/missing', what: 'corner', id: 'z' });
});
