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

const grid2 = (job: Job, id: string) =>
  edited(job, { type: 'add-sheet', args: { id, name: id, picture: null, fit: { kind: 'metric' } } });
const moved = (job: Job, cornerId: string, x: number, y: number) =>
  edited(job, { type: 'move-corner', args: { cornerId, x, y } });
const where = (m: Merged) => m.conflicts.map((c) => `${c.map} ${c.id}`);

test('both drew a slab of one name: what it needs is there as one of them has it, until somebody decides', () => {
  const a = edited(base, slabEdit('b', [20, 5, 5]));
  const b = edited(base, slabEdit('b', [20, 5, 6]));
  const m = merged(base, a, b);
  expect(m.job.slabs.b).toEqual(a.slabs.b);
  expect(where(m)).toEqual(['corners b2', 'corners b3']);
  // The same one whichever way round.
  expect([m.job.corners.b2, m.job.corners.b3]).toEqual([a.corners.b2, a.corners.b3]);
  expect(take(m, 'a').corners.b2).toEqual(a.corners.b2);
  expect(take(m, 'b').corners.b2).toEqual(b.corners.b2);
  // A description that both made, each in its own words, is not there at all.
  const t = merged(base, tag(base, 't', 2, 'Bay'), tag(base, 't', 2, 'Shed'));
  expect([t.job.tags, where(t)]).toEqual([{}, ['tags t']]);
});

test('what lies on a sheet that the other took away brings the sheet back', () => {
  const start = grid2(base, 'h');
  const gone = edited(start, { type: 'remove-sheet', args: { sheetId: 'h' } });
  const post = edited(start, {
    type: 'add-void',
    args: {
      id: 'p',
      name: 'P',
      kind: 'post',
      sheetId: 'h',
      shape: { type: 'circle', centre: { x: 1, y: 1 }, radiusM: 0.1 },
    },
  });
  const m = merged(start, gone, post);
  expect(m.job.sheets.h).toEqual(start.sheets.h);
  expect(m.conflicts).toEqual([
    { map: 'sheets', id: 'h', base: start.sheets.h, a: undefined, b: start.sheets.h },
  ]);
  // The word of who took it away leaves the post nowhere: that cannot be.
  expect(decided(m, 'a').ok).toBe(false);
  expect(take(m, 'b').voids.p).toEqual(post.voids.p);
  const drawn = edited(start, {
    ...slabEdit('b', [0, 3, 3]),
    args: { ...slabEdit('b', [0, 3, 3]).args, sheetId: 'h' },
  } as never);
  expect(merged(start, gone, drawn).job.sheets.h).toEqual(start.sheets.h);
});

test('a picture made from a photo that the other took away brings it back', () => {
  const photo = edited(base, {
    type: 'add-sheet',
    args: {
      id: 'h',
      name: 'Photo',
      picture: { imageId: 'i', widthPx: 10, heightPx: 10 },
      fit: { kind: 'marks', marks: [], known: { type: 'points' }, straights: [] },
    },
  });
  const straight = edited(photo, {
    type: 'add-sheet',
    args: {
      id: 's',
      name: 'Straight',
      picture: { imageId: 'k', widthPx: 10, heightPx: 10 },
      fit: { kind: 'straightened', sheetId: 'h', toPhoto: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: null },
    },
  });
  const gone = edited(photo, { type: 'remove-sheet', args: { sheetId: 'h' } });
  const m = merged(photo, gone, straight);
  expect([where(m), Object.keys(m.job.sheets)]).toEqual([['sheets h'], ['g', 's', 'h']]);
});

test('a tape, and a cut, bring back the corners that the other took away', () => {
  const start = edited(base, slabEdit('b', [20, 5, 5]));
  const noB = edited(start, { type: 'remove-slab', args: { slabId: 'b' } });
  const taped = edited(start, {
    type: 'set-tape',
    args: { id: 'x', kind: 'distance', a: 'a0', b: 'b1', lengthM: 25 },
  });
  const m = merged(start, noB, taped);
  expect(m.job.tapes!.x).toEqual(taped.tapes!.x);
  expect(where(m)).toEqual(['corners b1']);
  const cut = edited(start, {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'b',
      points: [
        { at: 'corner', cornerId: 'b0' },
        { at: 'side', cornerId: 'b2', t: 0.5 },
      ],
    },
  });
  const n = merged(start, noB, cut);
  expect(n.job.cuts.k).toEqual(cut.cuts.k);
  expect(n.job.slabs.b).toEqual(start.slabs.b);
  expect(where(n)[0]).toBe('slabs b');
});

test('a cut to a side that the other took away goes, with the slab as it was', () => {
  const cut = edited(base, {
    type: 'add-cut',
    args: {
      id: 'k',
      slabId: 'a',
      points: [
        { at: 'side', cornerId: 'a1', t: 0.5 },
        { at: 'side', cornerId: 'a3', t: 0.5 },
      ],
    },
  });
  const five = edited(base, {
    type: 'insert-corner',
    args: { slabId: 'a', cornerId: 'a0', newId: 'n', t: 0.5 },
  });
  const three = edited(five, { type: 'remove-corner', args: { cornerId: 'a1' } });
  // Against a base that has both corners, one takes a1 away while the other cuts from the side that leaves it.
  const cutFive = edited(five, {
    type: 'add-cut',
    args: { id: 'k', slabId: 'a', points: cut.cuts.k!.points as never },
  });
  const m = merged(five, three, cutFive);
  expect(m.job.slabs.a).toEqual(five.slabs.a);
  expect(m.job.corners.a1).toEqual(five.corners.a1);
  expect(m.job.cuts).toEqual({});
  expect(where(m).sort()).toEqual(['corners a1', 'cuts k', 'slabs a']);
});

test('moves that stay sound together are both kept, and an outline that nobody crossed is left alone', () => {
  const two = edited(base, slabEdit('b', [20, 5, 5]));
  const m = merged(two, moved(two, 'a1', 11, 0), moved(two, 'a3', 0, 9));
  expect([where(m), m.job.corners.a1!.x, m.job.corners.a3!.y]).toEqual([[], 11, 9]);
  const crossed = merged(two, moved(moved(two, 'b1', 26, 0), 'a1', 1, 0), moved(two, 'a3', 9, 7));
  expect(where(crossed)).toEqual(['corners a1', 'corners a3']);
  expect(crossed.job.corners.b1!.x).toBe(26);
});
