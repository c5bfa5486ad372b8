import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import { applyEdits, type Edit, editLabel } from './edits/index.ts';
import { findStructureProblem } from './integrity.ts';
import { findShapeProblem } from './schema.ts';
import type { Job } from './types.ts';

interface Step {
  /** The job as it was before the step. */
  readonly job: Job;
  readonly label: string;
  /** Steps with the same key in a row are one step: typing in one field. */
  readonly merge: string | null;
}

/** A stack of whole jobs; they share all that did not change. */
export interface History {
  readonly past: readonly Step[];
  readonly job: Job;
  readonly future: readonly Step[];
}

/** Steps that can be taken back. */
const DEPTH = 500;

export const startHistory = (job: Job): History => ({ past: [], job, future: [] });

/** Makes a change as one step; a change that changes nothing adds none. */
export function commit(history: History, edit: Edit, merge: string | null = null): Result<History, Problem> {
  return commitAll(history, [edit], merge);
}

/** Makes several changes as one step, all or none of them. */
export function commitAll(
  history: History,
  edits: readonly Edit[],
  merge: string | null = null,
): Result<History, Problem> {
  const edited = applyEdits(history.job, edits);
  if (!edited.ok) return edited;
  const job = edited.value;
  // What could not be opened again is not let in.
  const problem =
    job === history.job
      ? null
      : (findStructureProblem(job, history.job) ?? findShapeProblem(job, history.job));
  if (problem) return fail(problem);
  const last = edits[edits.length - 1];
  if (!last || sameContent(job, history.job)) return ok(history);
  const top = history.past[history.past.length - 1];
  if (merge !== null && top?.merge === merge) return ok({ ...history, job, future: [] });
  const step: Step = { job: history.job, label: editLabel(last), merge };
  return ok({ past: [...history.past, step].slice(-DEPTH), job, future: [] });
}

const sameContent = (a: Job, b: Job): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/** Takes the last step back; the same history when there is none. */
export function undo(history: History): History {
  const step = history.past[history.past.length - 1];
  if (!step) return history;
  return {
    past: history.past.slice(0, -1),
    job: step.job,
    future: [{ ...step, job: history.job, merge: null }, ...history.future],
  };
}

/** Makes the last step taken back again. */
export function redo(history: History): History {
  const step = history.future[0];
  if (!step) return history;
  return {
    past: [...history.past, { ...step, job: history.job, merge: null }],
    job: step.job,
    future: history.future.slice(1),
  };
}

/** A step as it is written down: what was changed, or that a step was taken back or made again. */
export type Entry =
  | { readonly do: readonly Edit[]; readonly merge: string | null }
  | { readonly undo: true }
  | { readonly redo: true };

/** The history after steps that were written down; one that does not apply any more is passed over. */
export function replay(history: History, entries: readonly Entry[]): History {
  return entries.reduce((h, entry) => {
    if ('undo' in entry) return undo(h);
    if ('redo' in entry) return redo(h);
    const next = commitAll(h, entry.do, entry.merge);
    return next.ok ? next.value : h;
  }, history);
}
