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

/** Where a log of steps can begin later: after `cut` of them, from a job; and the history, which stays what it was. */
export interface ShorterLog {
  readonly history: History;
  /** How many steps the base takes the place of; 0 where none can be spared. */
  readonly cut: number;
  /** The job after those. */
  readonly base: Job;
}

/**
 * Replays a log, and finds the last place where it can be cut so that as many steps as before can be taken back and
 * made again: nothing after it goes back beyond it, and all that can be taken back was made after it.
 */
export function replayShorter(start: History, entries: readonly Entry[]): ShorterLog {
  const states = [start];
  const depths = [start.past.length];
  for (const [i, entry] of entries.entries()) {
    const [before, next] = [states[i]!, replay(states[i]!, [entry])];
    states.push(next);
    // The stack drops its oldest step when it is full; the depth counts on. A merged change leaves the stack alone.
    depths.push(depths[i]! + (next.past === before.past ? 0 : 'undo' in entry ? -1 : 1));
  }
  const end = states[entries.length]!;
  let least = Number.POSITIVE_INFINITY;
  for (let k = entries.length; k > 0; k--) {
    const [state, depth] = [states[k]!, depths[k]!];
    least = Math.min(least, depth);
    if (depth > least || state.future.length > 0) continue;
    if (depths[entries.length]! - depth < end.past.length) continue;
    const history = replay(startHistory(state.job), entries.slice(k));
    // A change that merges with the very step before the cut would be a step of its own after it.
    if (history.past.length === end.past.length) return { history, cut: k, base: state.job };
  }
  return { history: end, cut: 0, base: start.job };
}
