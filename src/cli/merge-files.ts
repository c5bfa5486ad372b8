import { fail, ok, type Result } from '../../geometry/result.ts';
import { type Conflict, decided, type Merged, mergeJobs } from '../job/merge.ts';
import { CURRENT_SCHEMA } from '../job/migrations/index.ts';
import type { JobFile } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';

/** The file of a merged job, and what both had changed. */
export interface MergedFile {
  readonly file: JobFile;
  readonly conflicts: readonly Conflict[];
}

/**
 * Merges two copies of a job file that were changed apart; pictures of both are kept.
 * @param take whose word holds where both changed the same thing; the base as it was where none is given
 */
export function mergeFiles(
  base: JobFile,
  a: JobFile,
  b: JobFile,
  take: 'a' | 'b' | null,
): Result<MergedFile, Problem> {
  const newer = [base, a, b].find((file) => file.job.schema > CURRENT_SCHEMA);
  if (newer) return fail({ code: 'job/read-only', version: newer.job.schema, known: CURRENT_SCHEMA });
  const merged = mergeJobs(base.job, a.job, b.job);
  if (!merged.ok) return merged;
  const job = settled(merged.value, take);
  if (!job.ok) return job;
  const images = { ...base.images, ...a.images, ...b.images };
  return ok({ file: { ...base, job: job.value, images }, conflicts: merged.value.conflicts });
}

const settled = (merged: Merged, take: 'a' | 'b' | null) =>
  take && merged.conflicts.length > 0 ? decided(merged, take) : ok(merged.job);

/** What both changed, one sentence each. */
export function conflictText({ map, id, base, a, b }: Conflict): string {
  const named = [a, b, base].find((v): v is { name: string } => typeof nameIn(v) === 'string');
  const what = id === '' ? tr`The ${map}` : `${map}: “${named?.name || id}”`;
  if (a === undefined) return tr`${what} was taken away in A and changed or still used in B.`;
  if (b === undefined) return tr`${what} was taken away in B and changed or still used in A.`;
  return tr`${what} was changed in A and in B, each in another way.`;
}

const nameIn = (value: unknown): unknown =>
  typeof value === 'object' && value !== null ? (value as { readonly name?: unknown }).name : undefined;
