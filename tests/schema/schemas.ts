import { generateSchema, getProgramFromFiles } from 'typescript-json-schema';
import { z } from 'zod';
import { jobFileSchema } from '../../src/job/schema.ts';

/** A part of a JSON Schema. */
type Part = Record<string, unknown>;

/** Where each schema is published, and how it is made from what the program itself goes by. */
export const SCHEMAS: Readonly<Record<string, () => object>> = {
  'src/exports/results.schema.json': resultsSchema,
  'src/job/job.schema.json': () => ({
    title: 'A job as slabwright saves it',
    ...z.toJSONSchema(jobFileSchema, { unrepresentable: 'any' }),
  }),
};

/** From the types of what is written: they cannot drift apart. */
function resultsSchema(): object {
  const program = getProgramFromFiles(['src/exports/json.ts'], {
    strict: true,
    target: 'es2022',
    module: 'esnext',
    moduleResolution: 'bundler',
    allowImportingTsExtensions: true,
    noEmit: true,
    skipLibCheck: true,
    lib: ['es2022', 'dom'],
  });
  const warn = console.warn;
  // The library says of every property that it cannot read its value from the program.
  console.warn = () => {};
  try {
    const made = generateSchema(program, 'ResultsJson', {
      required: true,
      strictNullChecks: true,
      ignoreErrors: true,
    });
    return {
      title: 'All numbers of a job, with their working, as slabwright exports them',
      ...(tidied(made) as Part),
    };
  } finally {
    console.warn = warn;
  }
}

/** Units are marked on numbers for the compiler only; defaults that were guessed from the program are none. */
function tidied(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(tidied);
  if (typeof part !== 'object' || part === null) return part;
  const { default: _guess, ...rest } = part as Part;
  const all = rest.allOf as Part[] | undefined;
  if (all?.some((p) => p.type === 'number')) return { type: 'number' };
  return Object.fromEntries(Object.entries(rest).map(([k, v]) => [k, tidied(v)]));
}
