import type { z } from 'zod';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { findStructureProblem } from './integrity.ts';
import { CURRENT_SCHEMA, migrate } from './migrations/index.ts';
import { asJobFile, jobFileSchema } from './schema.ts';
import type { JobFile } from './types.ts';

/** JSON with keys in one order at every depth: the same job is the same bytes. */
export function writeJobFile(file: JobFile): string {
  return `${JSON.stringify(sorted({ format: FORMAT, ...file }), null, 1)}\n`;
}

const FORMAT = 'slabwright job';

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const entries = Object.entries(value as Record<string, unknown>).filter(([, v]) => v !== undefined);
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([k, v]) => [k, sorted(v)]));
}

/**
 * Reads a saved job: parses, migrates old versions, checks the shape, then that every name leads somewhere and
 * no outline crosses itself. A file of a newer version is taken as it is when it has the shape that is known here;
 * `applyEdit` then refuses to change it.
 * @param name of the file, for the sentence
 */
export function readJobFile(text: string, name: string): Result<JobFile, Problem> {
  let raw: unknown;
  try {
    // Some editors put a byte-order mark before the text.
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const detail = text.trim() === '' ? tr`it is empty` : tr`its text breaks off or is not JSON`;
    return fail({
      code: 'file/not-json',
      file: name,
      detail: error instanceof SyntaxError ? detail : String(error),
    });
  }
  if (!isRecord(raw) || !isRecord(raw.job)) return fail({ code: 'file/not-a-job', file: name });
  const version = raw.job.schema;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return fail({ code: 'job/version', found: JSON.stringify(version) ?? tr`missing` });
  }
  const newer = version > CURRENT_SCHEMA;
  const known = newer ? { ...raw, job: { ...raw.job, schema: CURRENT_SCHEMA } } : migrate(raw, version);
  const parsed = jobFileSchema.safeParse({ images: {}, ...known });
  if (!parsed.success) return fail(newer ? tooNew(version) : firstIssue(parsed.error));
  const { format: _format, ...rest } = parsed.data;
  const file = asJobFile(rest);
  const problem = findStructureProblem(file.job);
  if (problem) return fail(newer ? tooNew(version) : problem);
  return ok(newer ? { ...file, job: { ...file.job, schema: version } } : file);
}

const tooNew = (version: number): Problem => ({ code: 'job/newer', version, known: CURRENT_SCHEMA });

const isRecord = (v: unknown): v is Record<string, unknown> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);

function firstIssue(error: z.ZodError): Problem {
  const issue = error.issues[0]!;
  const path = issue.path.map(String).join('.') || tr`its top`;
  const expected = issue.message.replace(/^Invalid (input|option): /, '').replace(/^Too (big|small): /, '');
  return { code: 'job/field', path, expected };
}
