import { expect, test } from 'vitest';
import type { Edit } from '../../src/job/edits/index.ts';
import {
  commit,
  commitAll,
  type Entry,
  type History,
  redo,
  replay,
  replayShorter,
  startHistory,
  undo,
} from '../../src/job/history.ts';
import { imageIdsOf } from '../../src/job/images.ts';
import { emptyJob, type Job } from '../../src/job/types.ts';
import { oneSlab } from '../coating/scene.ts';

const named = (name: string): Edit => ({ type: 'rename-job', args: { name, note: '' } });
const start = startHistory(emptyJob('j', 'start'));
const step = (name: string, merge: string | null = null): Entry => ({ do: [named(name)], merge });
const UNDO: Entry = { undo: true };
const REDO: Entry = { redo: true };
const names = (h: History) => [
  ...h.past.map((s) => s.job.name),
  `(${h.job.name})`,
  ...h.future.map((s) => s.job.name),
];
const made = (history: History, edit: Edit, merge: string | null = null): History => {
  const next = commit(history, edit, merge);
  if (!next.ok) throw new Error(next.problem.code);
  return next.value;
};

test('steps go back and forth; a new step forgets those taken back', () => {
  const two = made(made(start, named('a')), named('b'));
  expect(names(two)).toEqual(['start', 'a', '(b)']);
  expect(names(undo(two))).toEqual(['start', '(a)', 'b']);
  expect(names(undo(undo(two)))).toEqual(['(start)', 'a', 'b']);
  expect(names(redo(undo(two)))).toEqual(['start', 'a', '(b)']);
  expect(names(made(undo(two), named('c')))).toEqual(['start', 'a', '(c)']);
  expect(undo(start)).toBe(start);
  expect(redo(two)).toBe(two);
});

test('typing in one field is one step, until something else is done or it was taken back', () => {
  const typed = made(made(start, named('a'), 'name'), named('ab'), 'name');
  expect(names(typed)).toEqual(['start', '(ab)']);
  expect(names(made(typed, named('abc'), 'other'))).toEqual(['start', 'ab', '(abc)']);
  expect(names(made(typed, named('abc')))).toEqual(['start', 'ab', '(abc)']);
  // Taken back and made again it is done with.
  expect(names(made(redo(undo(typed)), named('abc'), 'name'))).toEqual(['start', 'ab', '(abc)']);
  // Typing on after going back forgets what was taken back.
  const before = undo(made(typed, named('x')));
  expect(names(made(before, named('abc'), 'name'))).toEqual(['start', '(abc)']);
});

test('what changes nothing is no step; several changes are one step, all or none', () => {
  expect(made(start, named('start'))).toEqual(start);
  const none = commitAll(start, []);
  expect(none.ok && none.value).toBe(start);
  const both = commitAll(start, [named('a'), named('b')]);
  expect(both.ok && names(both.value)).toEqual(['start', '(b)']);
  const half = commitAll(start, [named('a'), { type: 'remove-slab', args: { slabId: 'none' } }]);
  expect(half.ok).toBe(false);
});

test('five hundred steps can be taken back', () => {
  let history = start;
  for (let i = 0; i < 502; i++) history = made(history, named(`${i}`));
  expect(history.past).toHaveLength(500);
  expect(history.past[0]!.job.name).toBe('1');
});

test('a log is replayed step by step; one that does not apply any more is passed over', () => {
  const lost: Entry = { do: [{ type: 'remove-slab', args: { slabId: 'none' } }], merge: null };
  const end = replay(start, [step('a'), step('b'), UNDO, lost, step('c', 'n'), step('d', 'n'), UNDO, REDO]);
  expect(names(end)).toEqual(['start', 'a', '(d)']);
});

const shorter = (entries: readonly Entry[]) => {
  const { history, cut, base } = replayShorter(start, entries);
  expect(names(history)).toEqual(names(replay(start, entries)));
  // What is left of the log gives the same from the base.
  expect(names(replay(startHistory(base), entries.slice(cut)))).toEqual(names(history));
  return [cut, base.name] as const;
};

test('a log is cut only where as much can be taken back and made again', () => {
  expect(shorter([])).toEqual([0, 'start']);
  // Each step can be taken back: nothing to spare.
  expect(shorter([step('a'), step('b')])).toEqual([0, 'start']);
  // What did nothing can be spared where a log begins.
  expect(shorter([step('start'), step('a')])).toEqual([1, 'start']);
  expect(shorter([step('start'), UNDO, REDO])).toEqual([3, 'start']);
  expect(shorter([step('start'), step('a'), UNDO, step('b')])).toEqual([1, 'start']);
  // Not where something could be made again there.
  expect(shorter([step('a'), UNDO])).toEqual([0, 'start']);
  expect(shorter([step('a'), UNDO, step('b')])).toEqual([0, 'start']);
  // A merged change cannot be cut from the one it merges with.
  expect(shorter([step('a', 'n'), step('b', 'n')])).toEqual([0, 'start']);
});

test('of a full stack the first steps can be spared', () => {
  const many = Array.from({ length: 503 }, (_, i) => step(`${i}`));
  expect(shorter(many)).toEqual([3, '2']);
  // Going back seven leaves seven to be made again: those stay.
  expect(shorter([...many, ...Array.from({ length: 7 }, () => UNDO)])).toEqual([3, '2']);
  expect(shorter([...many, UNDO, step('x')])).toEqual([3, '2']);
});

test('pictures that a job needs: under its sheets, and of work as it was done, each once', () => {
  const job = oneSlab();
  expect(imageIdsOf(job)).toEqual([]);
  const picture = (imageId: string) => ({ imageId, widthPx: 1, heightPx: 1 });
  const sheet = job.sheets.g!;
  const record = (photos: string[]) => ({ photos }) as never;
  const shown: Job = {
    ...job,
    sheets: { g: { ...sheet, picture: picture('i1') }, h: { ...sheet, id: 'h', picture: picture('i1') } },
    records: { r: record(['i2', 'i1']), s: record(['i3']) },
  };
  expect(imageIdsOf(shown)).toEqual(['i1', 'i2', 'i3']);
});
