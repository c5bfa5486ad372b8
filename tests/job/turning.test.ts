import { expect, test } from 'vitest';
import { carriedBy, mirroredSlab, turnedSlab } from '../../src/job/arrange.ts';
import type { Edit } from '../../src/job/edits/index.ts';
import type { Job, VoidShape } from '../../src/job/types.ts';
import { groundFrame } from '../../src/takeoff/ground.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// A slab of 10 m by 8 m about (5, 4) and all that lies on it, turned and mirrored by hand.

const shape = (id: string, of: VoidShape): Edit => ({
  type: 'add-void',
  args: { id, name: id, kind: 'other', sheetId: 'g', shape: of },
});
const JOB = edited(
  oneSlab(),
  slabEdit('b', [10, 4, 8]),
  { type: 'update-side', args: { slabId: 'a', cornerId: 'a0', via: { x: 5, y: -1 } } },
  shape('line', { type: 'line', a: { x: 1, y: 2 }, b: { x: 3, y: 2 }, widthM: 0.1 }),
  shape('circle', { type: 'circle', centre: { x: 2, y: 1 }, radiusM: 0.2 }),
  shape('box', { type: 'rectangle', centre: { x: 8, y: 4 }, lengthM: 1, widthM: 0.5, angleRad: 0.25 }),
  shape('pond', {
    type: 'outline',
    corners: [
      { x: 6, y: 5, via: null },
      { x: 7, y: 5, via: { x: 7.5, y: 5.5 } },
      { x: 7, y: 6, via: null },
    ],
  }),
  shape('far', { type: 'circle', centre: { x: 12, y: 1 }, radiusM: 0.2 }),
  {
    type: 'set-tag',
    args: { id: 't', slabId: 'a', anchor: { x: 2, y: 3 }, name: 'T', surface: { grip: true } },
  },
  { type: 'set-tag', args: { id: 'u', slabId: 'b', anchor: { x: 11, y: 3 }, name: 'U', surface: {} } },
  {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'place', id: 'n', x: 4, y: 3 },
        { at: 'side', cornerId: 'a2', t: 0.5 },
      ],
    },
  },
);
const frame = groundFrame(JOB, JOB.sheets.g!)!;
const fresh = () => {
  let n = 0;
  return (prefix: string) => `${prefix}new${n++}`;
};
const done = (edits: readonly Edit[]): Job => edited(JOB, ...edits);

/** Everything that lies on the slab, in one row. */
function places(job: Job): Record<string, readonly number[]> {
  const slab = job.slabs.a!;
  const of = (p: { x: number; y: number } | null | undefined) => (p ? [p.x, p.y] : []);
  const numbers = (s: VoidShape): number[] => {
    switch (s.type) {
      case 'line':
        return [...of(s.a), ...of(s.b), s.widthM];
      case 'circle':
        return [...of(s.centre), s.radiusM];
      case 'rectangle':
        return [...of(s.centre), s.lengthM, s.widthM, s.angleRad];
      case 'outline':
        return s.corners.flatMap((c) => [...of(c), ...of(c.via)]);
    }
  };
  const shapes = Object.values(job.voids).map((v) => [v.id, numbers(v.shape)] as const);
  return {
    outline: slab.corners.flatMap((c) => [...of(job.corners[c.cornerId]), ...of(c.via)]),
    ...Object.fromEntries(shapes),
    t: of(job.tags.t!.anchor),
    u: of(job.tags.u!.anchor),
    cut: of(job.corners.n),
  };
}

function near(found: Record<string, readonly number[]>, wanted: Record<string, readonly number[]>): void {
  expect(Object.keys(found).sort()).toEqual(Object.keys(wanted).sort());
  for (const [key, numbers] of Object.entries(wanted)) {
    expect([key, found[key]!.length]).toEqual([key, numbers.length]);
    numbers.forEach((n, i) => {
      expect(Math.abs(found[key]![i]! - n), `${key} ${i}`).toBeLessThan(1e-9);
    });
  }
}

test('a quarter turn about the middle: across becomes up', () => {
  // (x, y) goes to (5 − (y − 4), 4 + (x − 5)).
  near(places(done(turnedSlab(JOB, JOB.slabs.a!, frame, Math.PI / 2, fresh()))), {
    outline: [9, -1, 10, 4, 9, 9, 1, 9, 1, -1],
    line: [7, 0, 7, 2, 0.1],
    circle: [8, 1, 0.2],
    box: [5, 7, 1, 0.5, 0.25 + Math.PI / 2],
    pond: [4, 5, 4, 6, 3.5, 6.5, 3, 6],
    far: [12, 1, 0.2],
    t: [6, 1],
    u: [11, 3],
    cut: [6, 3],
  });
});

test('mirrored left to right and top to bottom', () => {
  near(places(done(mirroredSlab(JOB, JOB.slabs.a!, frame, 'left-right', fresh()))), {
    outline: [10, 0, 5, -1, 0, 0, 0, 8, 10, 8],
    line: [9, 2, 7, 2, 0.1],
    circle: [8, 1, 0.2],
    box: [2, 4, 1, 0.5, Math.PI - 0.25],
    pond: [4, 5, 3, 5, 2.5, 5.5, 3, 6],
    far: [12, 1, 0.2],
    t: [8, 3],
    u: [11, 3],
    cut: [6, 3],
  });
  near(places(done(mirroredSlab(JOB, JOB.slabs.a!, frame, 'top-bottom', fresh()))), {
    outline: [0, 8, 5, 9, 10, 8, 10, 0, 0, 0],
    line: [1, 6, 3, 6, 0.1],
    circle: [2, 7, 0.2],
    box: [8, 4, 1, 0.5, -0.25],
    pond: [6, 3, 7, 3, 7.5, 2.5, 7, 2],
    far: [12, 1, 0.2],
    t: [2, 5],
    u: [11, 3],
    cut: [4, 5],
  });
});

test('corners shared with a neighbour, or with a cut of one, become its own; the neighbour stays', () => {
  const job = done(mirroredSlab(JOB, JOB.slabs.a!, frame, 'left-right', fresh()));
  expect(job.slabs.a!.corners.map((c) => c.cornerId)).toEqual(['a0', 'a1', 'a2', 'a3']);
  // Slabs a and b of the scene lie side by side without a shared corner; one that shares two:
  const shared = edited(oneSlab(), {
    type: 'add-slab',
    args: {
      id: 'b',
      name: 'B',
      sheetId: 'g',
      corners: [
        { id: 'a1', x: 10, y: 0, via: null },
        { id: 'b1', x: 14, y: 0, via: null },
        { id: 'a2', x: 10, y: 8, via: null },
      ],
      surface: oneSlab().slabs.a!.surface,
    },
  });
  const edits = mirroredSlab(shared, shared.slabs.a!, frame, 'left-right', fresh());
  expect(edits[0]).toEqual({
    type: 'loosen-slab',
    args: { slabId: 'a', corners: { a1: 'cnew0', a2: 'cnew1' } },
  });
  const apart = edited(shared, ...edits);
  expect(apart.slabs.b).toEqual(shared.slabs.b);
  expect([apart.corners.a1, apart.corners.a2]).toEqual([shared.corners.a1, shared.corners.a2]);
  expect(apart.corners.cnew0).toMatchObject({ x: 0, y: 0 });
  const crossed = edited(oneSlab(), slabEdit('b', [20, 4, 8]), {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'b',
      points: [
        { at: 'corner', cornerId: 'a2' },
        { at: 'corner', cornerId: 'b0' },
      ],
    },
  });
  const [first] = turnedSlab(crossed, crossed.slabs.a!, frame, 1, fresh());
  expect(first).toEqual({ type: 'loosen-slab', args: { slabId: 'a', corners: { a2: 'cnew0' } } });
  expect(turnedSlab(oneSlab(), oneSlab().slabs.a!, frame, 1, fresh())[0]!.type).toBe('place-corners');
});

test('what goes with a slab: its corners and those of its cuts, its tags, what lies on it', () => {
  const { corners, tags, voids } = carriedBy(JOB, JOB.slabs.a!);
  expect(corners).toEqual(['a0', 'a1', 'a2', 'a3', 'n']);
  expect(tags.map((t) => t.id)).toEqual(['t']);
  expect(voids.map((v) => v.id)).toEqual(['line', 'circle', 'box', 'pond']);
  const elsewhere: Job = {
    ...JOB,
    voids: { ...JOB.voids, circle: { ...JOB.voids.circle!, sheetId: 'h' } },
  };
  expect(carriedBy(elsewhere, JOB.slabs.a!).voids.map((v) => v.id)).toEqual(['line', 'box', 'pond']);
});
