import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { commit, startHistory } from '../../src/job/history.ts';
import { emptyJob, type Fit, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';

const RUNS = process.env.SLABWRIGHT_PLANS ? 100 : 1500;

/** Numbers that people and programs bring: round, equal, tiny, huge. */
const number = fc.oneof(
  fc.constantFrom(0, 1, 1, 2, 3, 5, 10, 100, 1e-9, 1e-4, 1e5, 9e5, -1, -5),
  fc.double({ min: -1000, max: 1000, noNaN: true }),
);
const point = fc.record({ x: number, y: number });
const length = fc.oneof(
  fc.constantFrom(1, 3, 4, 5, 1e-6, 1e4),
  fc.double({ min: 0.01, max: 50, noNaN: true }),
);

const fits: fc.Arbitrary<Fit> = fc.oneof(
  fc.record({
    kind: fc.constant('scale' as const),
    lengths: fc.array(fc.record({ a: point, b: point, lengthM: length }), { minLength: 1, maxLength: 4 }),
    reach: fc.constant(null),
    stretched: fc.boolean(),
  }),
  fc.record({ kind: fc.constant('page' as const), ratio: length }),
  fc.record({ kind: fc.constant('drawing' as const), metresPerUnit: length }),
  fc.record({
    kind: fc.constant('marks' as const),
    marks: fc.array(fc.record({ at: point, on: fc.option(point) }), { maxLength: 7 }),
    known: fc.oneof(
      fc.record({ type: fc.constant('rectangle' as const), lengthM: length, widthM: length }),
      fc.constant({ type: 'points' as const }),
      fc.record({
        type: fc.constant('tapes' as const),
        tapes: fc.array(fc.record({ a: fc.nat(6), b: fc.nat(6), lengthM: length }), { maxLength: 12 }),
      }),
    ),
    straights: fc.array(fc.array(point, { minLength: 2, maxLength: 5 }), { maxLength: 2 }),
  }),
  fc.record({
    kind: fc.constant('straightened' as const),
    sheetId: fc.constantFrom('g', 'p', 'nowhere'),
    toPhoto: fc.array(number, { minLength: 9, maxLength: 9 }),
    lens: fc.constant(null),
  }),
);

const corner = fc.constantFrom('a0', 'a1', 'a2', 'a3', 'b0', 'p0');
const tapes: fc.Arbitrary<Edit> = fc
  .oneof(
    fc.record({
      id: fc.constantFrom('1', '2', '3', '4', '5', '6', '7'),
      kind: fc.constant('distance' as const),
      a: corner,
      b: corner,
      lengthM: length,
    }),
    fc.record({
      id: fc.constantFrom('8', '9'),
      kind: fc.constant('square' as const),
      at: corner,
      a: corner,
      b: corner,
    }),
    fc.record({
      id: fc.constant('10'),
      kind: fc.constant('offset' as const),
      a: corner,
      b: corner,
      corner,
      alongM: number,
      offM: number,
    }),
  )
  .map((args): Edit => ({ type: 'set-tape', args }));

/** A photo with a slab traced on it, beside a grid with two. */
function start(): Job {
  const grid = edited(oneSlab(), slabEdit('b', [20, 3, 3]));
  const photo: Edit = {
    type: 'add-sheet',
    args: { id: 'p', name: 'Photo', picture: { imageId: 'i', widthPx: 1000, heightPx: 800 }, fit: null },
  };
  const traced = slabEdit('p', [100, 300, 200]);
  if (traced.type !== 'add-slab') throw new Error('a slab');
  return edited(grid, photo, { ...traced, args: { ...traced.args, sheetId: 'p' } });
}

test('whatever is known of a sheet or taped between corners, areas are finite or missing, and what is missing is said', () => {
  const change: fc.Arbitrary<Edit> = fc.oneof(
    fits.map((fit): Edit => ({ type: 'set-fit', args: { sheetId: 'p', fit } })),
    tapes,
    tapes,
  );
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 9 }), (edits) => {
      let history = startHistory(start());
      for (const edit of edits) {
        const next = commit(history, edit);
        if (next.ok) history = next.value;
        else expect(sentence(next.problem)).toMatch(/\.$/);
      }
      const { job } = history;
      const { takeoff, remarks } = results(job);
      for (const zone of takeoff.zones) {
        expect(Number.isFinite(zone.netArea.value)).toBe(true);
        expect(Number.isFinite(zone.area95.value)).toBe(true);
      }
      const measured = new Set(takeoff.zones.map((z) => z.slabId));
      if (!measured.has('p')) expect(remarks.some((r) => r.severity === 'stop')).toBe(true);
      for (const remark of remarks) {
        for (const { edit } of remark.fixes) commit(history, edit);
      }
      const again = readJobFile(writeJobFile({ job, images: {} }), 'again');
      expect(again.ok, again.ok ? '' : sentence(again.problem)).toBe(true);
    }),
    { numRuns: RUNS, seed: 5 },
  );
}, 120_000);

test('an empty job has nothing to straighten', () => {
  expect(results(emptyJob('j', 'Job')).takeoff.figures).toEqual([]);
});
