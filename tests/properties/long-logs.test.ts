import { expect, test } from 'vitest';
import { type Entry, type History, replay, replayShorter, startHistory } from '../../src/job/history.ts';
import { digest, firstJob, type Step, stepped, stepsOfRound } from '../crash/steps.ts';

/** What a person did, as it is written down, and what came of it; every third change merges with its like. */
function worked(seed: number, count: number): { readonly entries: Entry[]; readonly end: History } {
  const steps = stepsOfRound(seed);
  const entries: Entry[] = [];
  let end = startHistory(firstJob());
  while (entries.length < count) {
    const step: Step = steps.next(end);
    const entry: Entry =
      step.kind === 'do'
        ? { do: [step.edit], merge: entries.length % 3 === 0 ? null : step.edit.type }
        : step.kind === 'undo'
          ? { undo: true }
          : { redo: true };
    if (stepped(end, step) === end) continue;
    const next = replay(end, [entry]);
    if (next === end) continue;
    entries.push(entry);
    end = next;
  }
  return { entries, end };
}

// Against the uncut log, which is what was there before a log was ever cut.
test('a log that is cut gives back the same history: as many steps back, as many forward, the same jobs', () => {
  let cuts = 0;
  for (const seed of [1, 2]) {
    const { entries, end } = worked(seed, 700);
    for (const length of [60, 520, 640, 700]) {
      const some = entries.slice(0, length);
      const uncut = length === 700 ? end : replay(startHistory(firstJob()), some);
      const { history, cut, base } = replayShorter(startHistory(firstJob()), some);
      expect(digest(history)).toBe(digest(uncut));
      expect(history.past.map((s) => [s.label, s.merge])).toEqual(uncut.past.map((s) => [s.label, s.merge]));
      expect(digest(replay(startHistory(base), some.slice(cut)))).toBe(digest(uncut));
      if (cut > 0) cuts++;
    }
  }
  expect(cuts).toBeGreaterThan(0);
});

test('a long log keeps no more than it must: a thousand steps in a row keep the last five hundred', () => {
  const names = Array.from(
    { length: 1000 },
    (_, i): Entry => ({
      do: [{ type: 'rename-job', args: { name: `job ${i}`, note: '' } }],
      merge: null,
    }),
  );
  const { cut, history } = replayShorter(startHistory(firstJob()), names);
  expect(cut).toBe(500);
  expect(history.past).toHaveLength(500);
  expect(history.past[0]!.job.name).toBe('job 499');
});
