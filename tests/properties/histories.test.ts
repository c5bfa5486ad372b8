import { describe, expect, test } from 'vitest';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { commit, type Entry, type History, redo, replay, startHistory, undo } from '../../src/job/history.ts';
import { decided, mergeJobs } from '../../src/job/merge.ts';
import { DEFAULT_SURFACE, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';
import { edited, oneSlab } from '../coating/scene.ts';
import { demo } from '../exports/scene.ts';
import { someEdit } from '../random/job-edits.ts';
import { randomNumbers } from '../random/numbers.ts';

const text = (job: Job): string => writeJobFile({ job, images: {} });

/** Ids that no other stream of edits makes. */
const ids = (prefix: string) => {
  let n = 0;
  return () => `${prefix}-${n++}`;
};

/** Edits in a whole run; every one is an edit of a person, refused or taken. */
const STEPS = Number(process.env.SLABWRIGHT_STEPS ?? 100_000);
/** Pairs of copies changed apart. */
const PAIRS = STEPS < 100_000 ? 60 : 1500;

describe('random sequences of edits, undo and redo', () => {
  test(`${STEPS} steps: nothing is thrown, whatever is taken can be opened again, and undoing all gives back the first bytes`, () => {
    const random = randomNumbers(9);
    const perJob = 200;
    let taken = 0;
    let steps = 0;
    for (let j = 0; steps < STEPS; j++) {
      const start = j % 4 === 0 ? demo('workshop') : oneSlab();
      const first = text(start);
      let history: History = startHistory(start);
      const log: Entry[] = [];
      const fresh = ids(`n${j}-`);
      for (let i = 0; i < perJob; i++, steps++) {
        const what = random();
        if (what < 0.1) {
          history = undo(history);
          log.push({ undo: true });
        } else if (what < 0.15) {
          history = redo(history);
          log.push({ redo: true });
        } else {
          const edit = someEdit(history.job, random, fresh);
          const next = commit(history, edit);
          if (next.ok) {
            history = next.value;
            log.push({ do: [edit], merge: null });
            taken++;
          } else expect(sentence(next.problem)).toMatch(/\.$/);
        }
      }
      // As it is kept: the base and the log make the same job, and the same ways back.
      const again = replay(startHistory(start), JSON.parse(JSON.stringify(log)));
      expect(text(again.job)).toBe(text(history.job));
      expect(again.past.length).toBe(history.past.length);
      const file = readJobFile(text(history.job), 'job.json');
      expect(file.ok ? '' : sentence(file.problem)).toBe('');
      if (j % 25 === 0) expect(results(history.job).remarks.length).toBeGreaterThanOrEqual(0);
      let back = history;
      while (back.past.length > 0) back = undo(back);
      expect(text(back.job)).toBe(first);
      while (back.future.length > 0) back = redo(back);
      // Steps taken back before the end stay taken back.
      expect(back.past.length).toBe(history.past.length + history.future.length);
    }
    expect(taken).toBeGreaterThan(STEPS / 3);
  }, 300_000);
});

/** A job after some edits, those that are refused left out. */
function changed(job: Job, random: () => number, prefix: string, count: number): Job {
  let history = startHistory(job);
  const fresh = ids(prefix);
  for (let i = 0; i < count; i++) {
    const next = commit(history, someEdit(history.job, random, fresh));
    if (next.ok) history = next.value;
  }
  return history.job;
}

describe('two copies changed apart', () => {
  test('merged either way round they are the same job with the same conflicts, which can be opened', () => {
    const random = randomNumbers(4);
    let conflicts = 0;
    let unsound = 0;
    for (let i = 0; i < PAIRS; i++) {
      const base = changed(oneSlab(), random, 'base', 5);
      const a = changed(base, random, 'a', 1 + Math.floor(random() * 6));
      const b = changed(base, random, 'b', 1 + Math.floor(random() * 6));
      const ab = mergeJobs(base, a, b);
      const ba = mergeJobs(base, b, a);
      expect(ab.ok).toBe(ba.ok);
      if (!ab.ok || !ba.ok) {
        unsound++;
        continue;
      }
      expect(text(ab.value.job)).toBe(text(ba.value.job));
      const sides = (of: typeof ab.value.conflicts) => of.map((c) => `${c.map} ${c.id}`).sort();
      expect(sides(ab.value.conflicts)).toEqual(sides(ba.value.conflicts));
      const file = readJobFile(text(ab.value.job), 'merged');
      expect(file.ok ? '' : sentence(file.problem)).toBe('');
      if (ab.value.conflicts.length > 0) conflicts++;
      expect(text(ok(mergeJobs(base, a, base)))).toBe(text(a));
      expect(text(ok(mergeJobs(base, a, a)))).toBe(text(a));
    }
    expect(conflicts).toBeGreaterThan(PAIRS / 30);
    expect(unsound).toBe(0);
  }, 120_000);

  const ok = (m: ReturnType<typeof mergeJobs>): Job => {
    if (!m.ok) throw new Error(sentence(m.problem));
    expect(m.value.conflicts).toEqual([]);
    return m.value.job;
  };

  test('different things are both kept; the same thing is asked about, and either answer can be taken', () => {
    const base = oneSlab();
    const a = edited(
      base,
      { type: 'set-price', args: { key: 'tape', cents: 900 } },
      { type: 'move-corner', args: { cornerId: 'a2', x: 11, y: 9 } },
      { type: 'rename-job', args: { name: 'A', note: '' } },
    );
    const b = edited(
      base,
      { type: 'set-price', args: { key: 'brush', cents: 1200 } },
      { type: 'move-corner', args: { cornerId: 'a3', x: -1, y: 8 } },
      { type: 'rename-job', args: { name: 'B', note: '' } },
    );
    const merged = mergeJobs(base, a, b);
    if (!merged.ok) throw new Error();
    expect(merged.value.job.prices).toEqual({ brush: 1200, tape: 900 });
    expect(merged.value.job.corners.a2).toMatchObject({ x: 11, y: 9 });
    expect(merged.value.job.corners.a3).toMatchObject({ x: -1, y: 8 });
    expect(merged.value.conflicts).toEqual([{ map: 'name', id: '', base: 'Job', a: 'A', b: 'B' }]);
    expect(merged.value.job.name).toBe('Job');
    for (const [side, name] of [
      ['a', 'A'],
      ['b', 'B'],
    ] as const) {
      const job = decided(merged.value, side);
      expect(job.ok && job.value.name).toBe(name);
    }
  });

  test('what one takes away and the other still uses comes back, and is asked about', () => {
    const base = oneSlab();
    const a = edited(base, { type: 'remove-slab', args: { slabId: 'a' } });
    const b = edited(base, {
      type: 'set-tag',
      args: { id: 't', slabId: 'a', anchor: { x: 1, y: 1 }, name: 'Walk', surface: {} },
    });
    const merged = mergeJobs(base, a, b);
    if (!merged.ok) throw new Error(sentence(merged.problem));
    expect(merged.value.job.slabs.a).toBeDefined();
    expect(merged.value.job.tags.t).toBeDefined();
    expect(merged.value.conflicts.map((c) => c.map)).toContain('slabs');
  });

  test('an outline that only both changes together make cross itself goes back, and a new neighbour at its new corner too', () => {
    const base = oneSlab();
    const corner = (id: string, x: number, y: number) => ({ id, x, y, via: null });
    const a = edited(
      base,
      { type: 'insert-corner', args: { slabId: 'a', cornerId: 'a1', newId: 'notch', t: 0.5 } },
      { type: 'move-corner', args: { cornerId: 'notch', x: 1, y: 4 } },
      {
        type: 'add-slab',
        args: {
          id: 'new',
          name: 'New',
          sheetId: 'g',
          corners: [corner('notch', 1, 4), corner('p', 8, 3.9), corner('q', 8, 4.1)],
          surface: DEFAULT_SURFACE,
        },
      },
    );
    const b = edited(base, { type: 'move-corner', args: { cornerId: 'a0', x: 4, y: 4 } });
    for (const merged of [mergeJobs(base, a, b), mergeJobs(base, b, a)]) {
      if (!merged.ok) throw new Error(sentence(merged.problem));
      const { job, conflicts } = merged.value;
      expect(job.slabs).toEqual(base.slabs);
      const slabs = conflicts.filter((c) => c.map === 'slabs').map((c) => c.id);
      expect(slabs.sort()).toEqual(['a', 'new']);
      const file = readJobFile(text(job), 'merged');
      expect(file.ok ? '' : sentence(file.problem)).toBe('');
    }
  });
});
