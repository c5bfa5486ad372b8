import { expect, test } from 'vitest';
import { decided, type Merged, mergeJobs } from '../../src/job/merge.ts';
import type { Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

// What comes of two copies is written out by hand; the other way round is asked of every pair.

function merged(base: Job, a: Job, b: Job): Merged {
  const [one, other] = [mergeJobs(base, a, b), mergeJobs(base, b, a)];
  if (!one.ok) throw new Error(sentence(one.problem));
  if (!other.ok) throw new Error(sentence(other.problem));
  expect(other.value.job).toEqual(one.value.job);
  expect(other.value.conflicts.map(({ map, id, a, b }) => [map, id, b, a])).toEqual(
    one.value.conflicts.map(({ map, id, a, b }) => [map, id, a, b]),
  );
  return one.value;
}

const take = (m: Merged, side: 'a' | 'b'): Job => {
  const job = decided(m, side);
  if (!job.ok) throw new Error(sentence(job.problem));
  return job.value;
};

const price = (job: Job, key: string, cents: number | null) =>
  edited(job, { type: 'set-price', args: { key, cents } });
const name = (job: Job, text: string) =>
  edited(job, { type: 'rename-job', args: { name: text, note: job.note } });
const tag = (job: Job, id: string, x: number, text = id) =>
  edited(job, {
    type: 'set-tag',
    args: { id, slabId: 'a', name: text, anchor: { x, y: 4 }, surface: { texture: 'stipple' } },
  });
const noSlab = (job: Job) => edited(job, { type: 'remove-slab', args: { slabId: 'a' } });

const base = oneSlab();

test('nothing changed is the base itself, without conflicts', () => {
  const m = merged(base, base, base);
  expect(m.job).toEqual(base);
  expect(m.conflicts).toEqual([]);
});

test('changes of different things are all kept: a name, a price, a slab, a tag', () => {
  const a = price(name(base, 'Yard'), 'tape', 900);
  const b = tag(edited(base, slabEdit('b', [20, 5, 5])), 't', 2);
  const m = merged(base, a, b);
  expect(m.conflicts).toEqual([]);
  expect(m.job.name).toBe('Yard');
  expect(m.job.prices).toEqual({ tape: 900 });
  expect(Object.keys(m.job.slabs).sort()).toEqual(['a', 'b']);
  expect(m.job.tags.t).toEqual(b.tags.t);
});

test('the same change in both is made once', () => {
  const a = price(base, 'tape', 900);
  const m = merged(base, a, price(base, 'tape', 900));
  expect(m.job).toEqual(a);
  expect(m.conflicts).toEqual([]);
});

test('one thing changed two ways stays as it was until somebody decides', () => {
  const start = price(base, 'tape', 500);
  const m = merged(start, price(start, 'tape', 900), price(start, 'tape', 700));
  expect(m.job.prices).toEqual({ tape: 500 });
  expect(m.conflicts).toEqual([{ map: 'prices', id: 'tape', base: 500, a: 900, b: 700 }]);
  expect(take(m, 'a').prices).toEqual({ tape: 900 });
  expect(take(m, 'b').prices).toEqual({ tape: 700 });
});

test('a price that one took away and the other changed is asked about, and can be gone', () => {
  const start = price(base, 'tape', 500);
  const m = merged(start, price(start, 'tape', null), price(start, 'tape', 700));
  expect(m.conflicts).toEqual([{ map: 'prices', id: 'tape', base: 500, a: undefined, b: 700 }]);
  expect(take(m, 'a').prices).toEqual({});
  expect(take(m, 'b').prices).toEqual({ tape: 700 });
});

test('a name given twice is one thing, asked about whole', () => {
  const m = merged(base, name(base, 'Front'), name(base, 'Back'));
  expect(m.job.name).toBe('Job');
  expect(m.conflicts).toEqual([{ map: 'name', id: '', base: 'Job', a: 'Front', b: 'Back' }]);
  expect([take(m, 'a').name, take(m, 'b').name]).toEqual(['Front', 'Back']);
});

test('the weather of one alone is there; of both it is asked about, and none can be taken', () => {
  const weather = (text: string) =>
    ({ name: text, latitude: 1, longitude: 2, zoneH: 0, hours: [] }) as unknown as Job['weather'];
  const a = { ...base, weather: weather('a') } as Job;
  const b = { ...base, weather: weather('b') } as Job;
  expect(merged(base, a, base).job.weather).toEqual(a.weather);
  const m = merged(base, a, b);
  expect(m.job.weather).toBeUndefined();
  expect(m.conflicts.map((c) => [c.map, c.id, c.base])).toEqual([['weather', '', undefined]]);
  const gone = merged(a, base, { ...base, weather: weather('c') } as Job);
  expect(gone.conflicts).toHaveLength(1);
  expect(Object.hasOwn(take(gone, 'a'), 'weather')).toBe(false);
});

test('a slab that one took away and the other describes comes back, corners and all, and is asked about', () => {
  const m = merged(base, noSlab(base), tag(base, 't', 2));
  expect(m.job.slabs.a).toEqual(base.slabs.a);
  expect(Object.keys(m.job.corners).sort()).toEqual(['a0', 'a1', 'a2', 'a3']);
  expect(m.job.tags.t).toBeDefined();
  const slab = m.conflicts.find((c) => c.map === 'slabs')!;
  expect([slab.id, slab.a, slab.b]).toEqual(['a', undefined, base.slabs.a]);
  expect(m.conflicts.filter((c) => c.map === 'corners').map((c) => c.id)).toEqual(['a0', 'a1', 'a2', 'a3']);
});

test('a slab that both took away is gone with all that hung on it', () => {
  const start = tag(base, 't', 2);
  const m = merged(start, noSlab(start), noSlab(start));
  expect(m.conflicts).toEqual([]);
  expect([m.job.slabs, m.job.corners, m.job.tags]).toEqual([{}, {}, {}]);
});

test('two moves that cross the outline together put all of it back, and are asked about', () => {
  const move = (cornerId: string, x: number, y: number) =>
    edited(base, { type: 'move-corner', args: { cornerId, x, y } } as never);
  // Each is sound by itself; together the side from (9, 7) to (0, 0) crosses the one from (1, 0) to (10, 8).
  const m = merged(base, move('a1', 1, 0), move('a3', 9, 7));
  expect(m.job.corners).toEqual(base.corners);
  expect(m.conflicts.map((c) => [c.map, c.id])).toEqual([
    ['corners', 'a1'],
    ['corners', 'a3'],
  ]);
  expect(take(m, 'a').corners.a1).toMatchObject({ x: 1, y: 0 });
  expect(take(m, 'b').corners.a3).toMatchObject({ x: 9, y: 7 });
});

test('a map that no copy has stays away, one that was emptied stays empty', () => {
  const start = price(base, 'tape', 500);
  const emptied = price(start, 'tape', null);
  expect(merged(start, emptied, start).job.prices).toEqual({});
  expect(Object.hasOwn(merged(base, base, base).job, 'packs')).toBe(Object.hasOwn(base, 'packs'));
});
