import { readFileSync } from 'node:fs';
import { Ajv, type ValidateFunction } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/types.ts';
import { oneSlab } from '../coating/scene.ts';
import { DEMOS, demo, exported } from '../exports/scene.ts';
import { SCHEMAS } from './schemas.ts';

const PATHS = Object.keys(SCHEMAS);

test.each(PATHS)('%s is what the program goes by: `npm run schema` writes it', (path) => {
  expect(JSON.parse(readFileSync(path, 'utf8'))).toEqual(JSON.parse(JSON.stringify(SCHEMAS[path]!())));
});

const compiled = (path: string): ValidateFunction => {
  const schema = JSON.parse(readFileSync(path, 'utf8'));
  // Formats and patterns of zod are fuller than plain JSON Schema's.
  const options = { strict: false, validateFormats: false, allErrors: true };
  return (schema.$schema?.includes('2020') ? new Ajv2020(options) : new Ajv(options)).compile(schema);
};

const results = compiled('src/exports/results.schema.json');
const job = compiled('src/job/job.schema.json');

const written = async (of: Job): Promise<Record<string, unknown>> =>
  JSON.parse(new TextDecoder().decode(await exported(of, 'json')));

test('an independent validator finds every number that is exported as the published schema says', async () => {
  for (const of of [...DEMOS.map(demo), oneSlab()]) {
    expect(results(await written(of)), JSON.stringify(results.errors?.slice(0, 2))).toBe(true);
  }
  const broken = await written(demo('yard'));
  (broken.takeoff as { zones: Array<Record<string, unknown>> }).zones[0]!.netArea_m2 = '58';
  expect(results(broken)).toBe(false);
});

test('saved jobs are as the published schema says, and what is none is found out', () => {
  for (const name of DEMOS) {
    const file = JSON.parse(readFileSync(`demo-plans/${name}/job.json`, 'utf8'));
    expect(job(file), JSON.stringify(job.errors?.slice(0, 2))).toBe(true);
    delete file.job.slabs;
    expect(job(file)).toBe(false);
  }
});
