import { expect, test } from 'vitest';
import { carriedBy, rowOfCopies, sidesUnder } from '../../src/job/arrange.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import { freeName, voidCalled } from '../../src/job/names.ts';
import {
  cornerLetter,
  cornerPair,
  cutPath,
  outlinePoints,
  sideIndex,
  slabRing,
  voidPlace,
} from '../../src/job/outline.ts';
import type { Job, Void, VoidShape } from '../../src/job/types.ts';
import { groundFrame } from '../../src/takeoff/ground.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// All places by hand, on a slab of 10 m by 8 m with its first corner in the zero of a grid in metres.

const shapes: Readonly<Record<string, VoidShape>> = {
  line: { type: 'line', a: { x: 1, y: 2 }, b: { x: 5, y: 4 }, widthM: 0.2 },
  circle: { type: 'circle', centre: { x: 3, y: 4 }, radiusM: 0.1 },
  rectangle: { type: 'rectangle', centre: { x: 6, y: 7 }, lengthM: 1, widthM: 2, angleRad: 0 },
  outline: {
    type: 'outline',
    corners: [
      { x: 2, y: 3, via: null },
      { x: 4, y: 3, via: null },
      { x: 4, y: 5, via: null },
    ],
  },
};

const voidAt = (id: string, shape: VoidShape, name = id): Edit => ({
  type: 'add-void',
  args: { id, name, kind: 'post', sheetId: 'g', shape },
});

test('what is taken out has one place: the middle of a line, a centre, the first corner of an outline', () => {
  expect(voidPlace(shapes.line!)).toEqual({ x: 3, y: 3 });
  expect(voidPlace(shapes.circle!)).toEqual({ x: 3, y: 4 });
  expect(voidPlace(shapes.rectangle!)).toEqual({ x: 6, y: 7 });
  expect(voidPlace(shapes.outline!)).toMatchObject({ x: 2, y: 3 });
});

test('corners go by letters round their slab, from A to Z, then A2; a pair in the order of the alphabet', () => {
  const corners = Array.from({ length: 28 }, (_, i) => ({
    id: `q${i}`,
    x: 20 + 5 * Math.cos((2 * Math.PI * i) / 28),
    y: 20 + 5 * Math.sin((2 * Math.PI * i) / 28),
    via: null,
  }));
  const job = edited(oneSlab(), {
    type: 'add-slab',
    args: { id: 'q', name: 'Q', sheetId: 'g', corners, surface: oneSlab().slabs.a!.surface },
  });
  expect(['q0', 'q1', 'q25', 'q26', 'q27', 'a0', 'a3', 'none'].map((id) => cornerLetter(job, id))).toEqual([
    'A',
    'B',
    'Z',
    'A2',
    'B2',
    'A',
    'D',
    '?',
  ]);
  expect(cornerPair(job, 'a3', 'a1')).toBe('B–D');
  expect(cornerPair(job, 'a1', 'a3')).toBe('B–D');
});

test('a slab’s ring follows its corners; a side is found by the corner it leaves', () => {
  const job = oneSlab();
  const slab = job.slabs.a!;
  expect(slabRing(job, slab).map((v) => [v.x, v.y])).toEqual([
    [0, 0],
    [10, 0],
    [10, 8],
    [0, 8],
  ]);
  expect(['a0', 'a2', 'a3', 'b0'].map((id) => sideIndex(slab, id))).toEqual([0, 2, 3, -1]);
});

test('a cut goes through its corners and the shares of its sides; what is gone is left out', () => {
  const cut: Edit = {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'side', cornerId: 'a0', t: 0.25 },
        { at: 'corner', cornerId: 'a2' },
      ],
    },
  };
  const job = edited(oneSlab(), cut);
  expect(cutPath(job, job.cuts.k!)).toEqual([
    { x: 2.5, y: 0 },
    { x: 10, y: 8 },
  ]);
  const gone = {
    ...job.cuts.k!,
    points: [
      { at: 'side', cornerId: 'z', t: 0.5 },
      { at: 'corner', cornerId: 'z' },
      { at: 'corner', cornerId: 'a1' },
    ],
  } as const;
  expect(cutPath(job, gone)).toEqual([{ x: 10, y: 0 }]);
  expect(cutPath({ ...job, slabs: {} }, job.cuts.k!)).toEqual([{ x: 10, y: 8 }]);
});

test('points of an outline keep straight sides as they are and follow an arc to 1/2000 of the extent', () => {
  expect(outlinePoints(slabRing(oneSlab(), oneSlab().slabs.a!))).toHaveLength(4);
  const arc = outlinePoints([
    { x: 0, y: 0, via: null },
    { x: 10, y: 0, via: { x: 5, y: 5 } },
  ]);
  // The arc is half a circle of radius 5 round (5, 0): each point lies on it, each chord within its sagitta.
  expect(arc.length).toBeGreaterThan(20);
  for (const p of arc) expect(Math.hypot(p.x - 5, p.y)).toBeCloseTo(5, 9);
  arc.slice(1).forEach((p, i) => {
    const q = arc[i]!;
    expect(5 - Math.hypot((p.x + q.x) / 2 - 5, (p.y + q.y) / 2)).toBeLessThan(10 / 2000 + 1e-9);
  });
});

test('a slab carries its corners, those of its cuts, its tags, and what lies on it; nothing of its neighbour', () => {
  const job = edited(
    oneSlab(),
    slabEdit('b', [20, 10, 8]),
    voidAt('in', { type: 'circle', centre: { x: 3, y: 4 }, radiusM: 0.1 }),
    voidAt('out', { type: 'circle', centre: { x: 25, y: 4 }, radiusM: 0.1 }),
    { type: 'set-tag', args: { id: 't', slabId: 'a', name: 'T', anchor: { x: 1, y: 1 }, surface: {} } },
    { type: 'set-tag', args: { id: 'u', slabId: 'b', name: 'U', anchor: { x: 21, y: 1 }, surface: {} } },
  );
  const carried = carriedBy(job, job.slabs.a!);
  expect([...carried.corners].sort()).toEqual(['a0', 'a1', 'a2', 'a3']);
  expect(carried.tags.map((t) => t.id)).toEqual(['t']);
  expect(carried.voids.map((v) => v.id)).toEqual(['in']);
});

test('a row of copies goes the way it is told, every so many metres, each kind of shape as a whole', () => {
  const job = edited(oneSlab(), ...Object.entries(shapes).map(([id, shape]) => voidAt(id, shape)));
  const frame = groundFrame(job, job.sheets.g!)!;
  let n = 0;
  const newId = () => `n${n++}`;
  const row = (j: Job, id: string, direction: Parameters<typeof rowOfCopies>[5]) =>
    rowOfCopies(j, j.voids[id]!, frame, 2, 0.5, direction, newId).map((e) =>
      voidPlace((e.args as Void).shape),
    );
  const from = voidPlace(shapes.circle!);
  for (const [kind, dx, dy] of [
    ['right', 1, 0],
    ['left', -1, 0],
    ['up', 0, 1],
    ['down', 0, -1],
  ] as const)
    row(job, 'circle', { kind }).forEach((p, i) => {
      expect(p.x).toBeCloseTo(from.x + dx * 0.5 * (i + 1), 9);
      expect(p.y).toBeCloseTo(from.y + dy * 0.5 * (i + 1), 9);
    });
  // Along the slab’s right side, from its lower to its upper corner, and back.
  const up = row(job, 'circle', { kind: 'side', from: 'a1', to: 'a2' });
  expect(up[1]!.y).toBeCloseTo(from.y + 1, 9);
  const down = row(job, 'circle', { kind: 'side', from: 'a2', to: 'a1' });
  expect(down[1]!.y).toBeCloseTo(from.y - 1, 9);
  const [drain] = rowOfCopies(job, job.voids.line!, frame, 1, 2, { kind: 'right' }, newId);
  const { shape } = drain!.args as Void;
  expect(shape.type === 'line' && [shape.a.x, shape.a.y, shape.b.x, shape.b.y]).toEqual([
    expect.closeTo(3, 9),
    expect.closeTo(2, 9),
    expect.closeTo(7, 9),
    expect.closeTo(4, 9),
  ]);
});

test('copies of what has no name are posts, and names that are taken are passed over', () => {
  const job = edited(oneSlab(), voidAt('p', shapes.circle!, ''), voidAt('o', shapes.rectangle!, 'Post 2'));
  const frame = groundFrame(job, job.sheets.g!)!;
  let n = 0;
  const edits = rowOfCopies(job, job.voids.p!, frame, 3, 1, { kind: 'up' }, () => `n${n++}`);
  expect(edits.map((e) => (e.args as Void).name)).toEqual(['Post 1', 'Post 3', 'Post 4']);
  expect(edits.map((e) => (e.args as Void).id)).toEqual(['n0', 'n1', 'n2']);
  expect(freeName('Slab', [])).toBe('Slab 1');
  expect(freeName('Slab', [{ name: 'Slab 1' }, { name: 'Slab 3' }])).toBe('Slab 2');
});

test('a row can go along each straight side of the slab beneath, both ways, and along none where there is none', () => {
  const bent = edited(oneSlab(), {
    type: 'update-side',
    args: { slabId: 'a', cornerId: 'a1', via: { x: 11, y: 4 } },
  } as Edit);
  const lone: Void = { id: 'v', name: 'V', kind: 'post', sheetId: 'g', shape: shapes.circle! };
  const sides = sidesUnder(oneSlab(), lone).map(({ from, to }) => `${from} ${to}`);
  expect(sides).toEqual(['a0 a1', 'a1 a0', 'a1 a2', 'a2 a1', 'a2 a3', 'a3 a2', 'a3 a0', 'a0 a3']);
  expect(sidesUnder(bent, lone).map(({ from, to }) => `${from} ${to}`)).toEqual(
    sides.filter((s) => s !== 'a1 a2' && s !== 'a2 a1'),
  );
  expect(
    sidesUnder(oneSlab(), { ...lone, shape: { ...lone.shape, centre: { x: 50, y: 50 } } as VoidShape }),
  ).toEqual([]);
  expect(sidesUnder(oneSlab(), { ...lone, sheetId: 'h' })).toEqual([]);
});

test('sentences name what is taken out by its kind and its name', () => {
  const named = (kind: Void['kind']): string =>
    voidCalled({ id: 'v', name: 'N', kind, sheetId: 'g', shape: shapes.circle! });
  expect(named('drain')).toBe('The drain “N”');
  expect(named('other')).toBe('The void “N”');
});
