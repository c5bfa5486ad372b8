import type { Edit } from '../../src/job/edits/index.ts';
import { writeJobFile } from '../../src/job/file.ts';
import { commit, type History, redo, undo } from '../../src/job/history.ts';
import { emptyJob, type Job } from '../../src/job/types.ts';
import { someEdit } from '../random/job-edits.ts';
import { randomNumbers } from '../random/numbers.ts';

/** The job that a crash test begins with: a grid with nothing on it. */
export const firstJob = (): Job => ({
  ...emptyJob('crash', 'Crash'),
  sheets: { g: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
});

/** What is found when the browser is opened again. */
export interface Found {
  /** The number of the last step that is kept: histories come back to what they were, numbers never. */
  readonly seq: number;
  readonly digest: string;
  /** Whether it had to be brought back from the second store. */
  readonly broughtBack: boolean;
}

/** What a person does. */
export type Step =
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' }
  | { readonly kind: 'do'; readonly edit: Edit };

/** What happens in a round, step by step: the same in the page and beside it, as both begin with the same history. */
export function stepsOfRound(round: number) {
  const random = randomNumbers(1000 + round);
  let n = 0;
  const fresh = () => `r${round}-${n++}`;
  return {
    /** Milliseconds before the next step. */
    gap: () => 15 + random() * 90,
    /** What a person does next. */
    next(history: History): Step {
      const what = random();
      if (what < 0.12 && history.past.length > 0) return { kind: 'undo' };
      if (what < 0.2 && history.future.length > 0) return { kind: 'redo' };
      return { kind: 'do', edit: someEdit(inOrder(history.job), random, fresh) };
    },
  };
}

/** A job with its maps in the order of their keys: what is read from a file has them so, what was just made has not. */
const inOrder = (job: Job): Job =>
  Object.fromEntries(
    Object.entries(job).map(([field, value]) => [
      field,
      value !== null && typeof value === 'object' && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
        : value,
    ]),
  ) as unknown as Job;

/** The history after one step; a refused edit changes nothing. */
export function stepped(history: History, step: Step): History {
  if (step.kind === 'undo') return undo(history);
  if (step.kind === 'redo') return redo(history);
  const next = commit(history, step.edit);
  return next.ok ? next.value : history;
}

/** A job with its ways back and forth, as text to compare; of long histories the last few steps. */
export const digest = ({ past, job, future }: History): string =>
  [
    past.length,
    future.length,
    ...[...past.slice(-6).map((s) => s.job), job, ...future.slice(0, 6).map((s) => s.job)].map((j) =>
      writeJobFile({ job: j, images: {} }),
    ),
  ].join('\n');
