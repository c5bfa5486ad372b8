import type { z } from 'zod';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
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
 * no outline crosses itself.
 * @param name of the file, for the sentence
 */
export function readJobFile(text: string, name: string): Result<JobFile, Problem> {
  let raw: unknown;
  try {
    // Some editors put a byte-order mark before the text.
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const detail = text.trim() === '' ? 'it is empty' : 'its text breaks off or is not JSON';
    return fail({
      code: 'file/not-json',
      file: name,
      detail: error instanceof SyntaxError ? detail : String(error),
    });
  }
  if (!isRecord(raw) || !isRecord(raw.job)) return fail({ code: 'file/not-a-job', file: name });
  const version = raw.job.schema;
  if (typeof version === 'number' && version > CURRENT_SCHEMA) {
    return fail({ code: 'job/newer', version, known: CURRENT_SCHEMA });
  }
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return fail({ code: 'job/version', found: JSON.stringify(version) ?? 'missing' });
  }
  const parsed = jobFileSchema.safeParse({ images: {}, ...migrate(raw, version) });
  if (!parsed.success) return fail(firstIssue(parsed.error));
  const { format: _format, ...rest } = parsed.data;
  const file = asJobFile(rest);
  const problem = findStructureProblem(file.job);
  return problem ? fail(problem) : ok(file);
}

const isRecord = (v: unknown): v is Record<string, unknown> =>
  typeof v === 'object' && v !== null && !Array.isArray(v);

function firstIssue(error: z.ZodError): Problem {
  const issue = error.issues[0]!;
  const path = issue.path.map(String).join('.') || 'its top';
  const expected = issue.message.replace(/^Invalid (input|option): /, '').replace(/^Too (big|small): /, '');
  return { code: 'job/field', path, expected };
}
