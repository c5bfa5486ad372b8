import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { sentence } from '../../src/problem.ts';

const good = readFileSync(new URL('../../demo-plans/workshop/job.json', import.meta.url), 'utf8');
type Raw = { job: Record<string, never> & { [key: string]: never } };

/** The good file with one thing spoilt. */
// biome-ignore lint/suspicious/noExplicitAny: the point is to write what the types forbid
type Anything = any;

function spoilt(change: (file: { job: Anything }) => void): string {
  const file = JSON.parse(good) as Raw;
  change(file);
  return JSON.stringify(file);
}

const refusal = (text: string): string => {
  const file = readJobFile(text, 'site.json');
  return file.ok ? 'opened' : sentence(file.problem);
};

test('a job file that is not JSON, empty, or something else', () => {
  expect(refusal('')).toContain('“site.json” cannot be read as a job (it is empty)');
  expect(refusal(good.slice(0, 900))).toContain('breaks off');
  expect(refusal('{"a": 1}')).toContain('is not a slabwright job');
  expect(refusal('[1, 2]')).toContain('is not a slabwright job');
  expect(refusal(good.replace('"x": 160', '"x": NaN'))).toContain('cannot be read as a job');
});

test('a missing field says where', () => {
  expect(refusal(spoilt((f) => delete f.job.slabs.bay.corners))).toContain('job.slabs.bay.corners');
  expect(refusal(spoilt((f) => delete f.job.corners['c-doorW'].x))).toContain('job.corners.c-doorW.x');
  expect(refusal(spoilt((f) => delete f.job.values))).toContain('job.values');
});

test('a version that is not known', () => {
  expect(refusal(spoilt((f) => (f.job.schema = 99)))).toContain('saved by a newer slabwright');
  expect(refusal(spoilt((f) => (f.job.schema = 0)))).toContain('version 0, which never existed');
  expect(refusal(spoilt((f) => delete f.job.schema))).toContain('version missing');
});

test('coordinates that no site has', () => {
  expect(refusal(spoilt((f) => (f.job.corners['c-doorW'].x = 1e300)))).toContain('job.corners.c-doorW.x');
  expect(refusal(spoilt((f) => (f.job.corners['c-doorW'].x = null)))).toContain('job.corners.c-doorW.x');
});

test('an outline that crosses itself, or is none', () => {
  const swap = spoilt((f) => {
    const c = f.job.slabs.bay.corners;
    [c[0], c[1]] = [c[1], c[0]];
  });
  expect(refusal(swap)).toMatch(/The slab “Vehicle bay” crosses itself near .*: move a corner/);
  expect(refusal(spoilt((f) => f.job.slabs.bay.corners.splice(0, 2)))).toContain(
    'needs at least three corners',
  );
});

test('names that lead nowhere, and keys that are not their own', () => {
  expect(refusal(spoilt((f) => (f.job.slabs.bay.sheetId = 'gone')))).toContain('it names “gone”');
  expect(refusal(spoilt((f) => (f.job.slabs.bay.corners[0].cornerId = 'toString')))).toContain('“toString”');
  expect(refusal(spoilt((f) => (f.job.slabs.bay.id = 'other')))).toContain('job.slabs.bay.id');
});

test('a zero scale', () => {
  expect(refusal(spoilt((f) => (f.job.sheets.plan.fit.lengths[0].lengthM = 0)))).toContain('lengthM');
});

test('fields this version does not know survive', () => {
  const file = readJobFile(
    spoilt((f) => (f.job.slabs.bay.later = { a: [1] })),
    'site.json',
  );
  if (!file.ok) throw new Error();
  expect(JSON.parse(writeJobFile(file.value)).job.slabs.bay.later).toEqual({ a: [1] });
});
