import { expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import type { Job } from '../../src/job/types.ts';
import { resultsKeeper } from '../../src/results.ts';
import { newTakeoffMemory, takeoff } from '../../src/takeoff/takeoff.ts';
import { insideRings, slabIdOf, type Takeoff, zoneAt } from '../../src/takeoff/zone.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// What is remembered from one job to the next must never show: against the same job measured afresh.

/** Numbers and names of a takeoff; its parts are kept, so they are compared by what they say. */
const shown = (t: Takeoff) =>
  JSON.stringify({
    slabs: t.slabs,
    zones: t.zones.map((z) => [
      z.id,
      z.name,
      z.netArea.value,
      z.areaUncertainty.value,
      z.boundary.value,
      z.cutIn.value,
      z.brushArea.value,
      z.netRings,
      z.label,
    ]),
    voids: t.voids,
    overlaps: t.overlaps,
    unscaled: t.unscaled,
    unseen: t.unseen,
  });

const post = (id: string, x: number, radiusM = 0.2): Edit => ({
  type: 'add-void',
  args: {
    id,
    name: id,
    kind: 'post',
    sheetId: 'g',
    shape: { type: 'circle', centre: { x, y: 4 }, radiusM },
  },
});
const scale = (lengthM: number): Edit => ({
  type: 'set-fit',
  args: {
    sheetId: 'g',
    fit: { kind: 'scale', lengths: [{ a: { x: 0, y: 0 }, b: { x: 1, y: 0 }, lengthM }], reach: null },
  },
});
const STEPS: ReadonlyArray<Edit> = [
  slabEdit('b', [20, 4, 8]),
  post('p', 5),
  post('q', 22),
  { type: 'move-corner', args: { cornerId: 'a1', x: 11, y: 0 } },
  {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'side', cornerId: 'a0', t: 0.3 },
        { at: 'side', cornerId: 'a2', t: 0.5 },
      ],
    },
  },
  { type: 'set-tag', args: { id: 't', slabId: 'a', anchor: { x: 1, y: 1 }, name: 'T', surface: {} } },
  {
    type: 'update-void',
    args: { voidId: 'p', shape: { type: 'circle', centre: { x: 6, y: 4 }, radiusM: 0.5 } },
  },
  { type: 'remove-void', args: { voidId: 'q' } },
  { type: 'update-side', args: { slabId: 'b', cornerId: 'b1', via: { x: 25, y: 4 } } },
  { type: 'move-corner', args: { cornerId: 'b0', x: 9, y: 0 } },
  { type: 'remove-cut', args: { cutId: 'k' } },
  scale(2),
  scale(3),
  { type: 'set-value', args: { key: 'measure.weld', value: 30 } },
  { type: 'set-value', args: { key: 'measure.brush-width', value: 75 } },
  { type: 'update-slab', args: { slabId: 'a', slope: 0.5, name: 'Ramp' } },
  { type: 'set-fit', args: { sheetId: 'g', fit: null } as never },
  scale(2),
  { type: 'remove-slab', args: { slabId: 'a' } },
  { type: 'remove-sheet', args: { sheetId: 'g' } },
];

test('after every step the numbers are those of the job measured afresh', () => {
  const memory = newTakeoffMemory();
  let job: Job = oneSlab();
  for (const step of STEPS) {
    if (step.type === 'set-fit' && !step.args.fit) {
      job = { ...job, sheets: { g: { ...job.sheets.g!, fit: null } } };
    } else job = edited(job, step);
    expect(shown(takeoff(job, memory)), step.type).toBe(shown(takeoff(job)));
  }
  expect(memory.sheets.size).toBe(0);
});

test('what no step touched is the very same as before', () => {
  const two = edited(oneSlab(), slabEdit('b', [20, 4, 8]), post('p', 22));
  const keep = resultsKeeper();
  const before = keep(two).takeoff;
  expect(keep(two).takeoff).toBe(before);
  const moved = keep(edited(two, { type: 'move-corner', args: { cornerId: 'a1', x: 11, y: 0 } })).takeoff;
  const zone = (t: Takeoff, slabId: string) => t.zones.find((z) => z.slabId === slabId)!;
  expect(zone(moved, 'b')).toBe(zone(before, 'b'));
  expect(zone(moved, 'a')).not.toBe(zone(before, 'a'));
});

test('a zone is found by a place on the ground, and its slab by its name', () => {
  const job = edited(oneSlab(), slabEdit('b', [20, 4, 8]));
  const t = takeoff(job);
  expect(zoneAt(t.zones, { x: 3, y: 3 })!.slabId).toBe('a');
  expect(zoneAt(t.zones, { x: 21, y: 3 })!.slabId).toBe('b');
  expect(zoneAt(t.zones, { x: 15, y: 3 })).toBeNull();
  expect(slabIdOf(t, zoneAt(t.zones, { x: 21, y: 3 })!.id)).toBe('b');
  // A zone that is not measured, as on a sheet without a scale.
  expect(slabIdOf(t, 'c/2')).toBe('c');
  const square = (a: number, b: number) => [
    { x: a, y: a },
    { x: b, y: a },
    { x: b, y: b },
    { x: a, y: b },
  ];
  // In a hole it is outside, on an island in the hole inside again.
  const rings = [square(0, 10), square(2, 8), square(4, 6)];
  expect([1, 3, 5, 11].map((x) => insideRings(rings, { x, y: 5 }))).toEqual([true, false, true, false]);
});
