import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { commit, startHistory } from '../../src/job/history.ts';
import { CURRENT_SCHEMA } from '../../src/job/migrations/index.ts';
import { findShapeProblem } from '../../src/job/schema.ts';
import { emptyJob, type Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';

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

test('every version of the file that was released still opens, and comes to the same', () => {
  // Files that were saved then and are never written again; their areas by hand.
  const area = 9.6 * 4.25 + 6.15 * 2.8 - 1.1 * 0.8 - Math.PI * 0.225 ** 2;
  for (let version = 1; version <= CURRENT_SCHEMA; version++) {
    const file = readJobFile(sample(version), `version-${version}.json`);
    if (!file.ok) throw new Error(sentence(file.problem));
    expect(file.value.job.schema).toBe(CURRENT_SCHEMA);
    expect(results(file.value.job).takeoff.zones[0]!.netArea.value).toBeCloseTo(area, 9);
  }
});

const sample = (version: number) =>
  readFileSync(new URL(`samples/version-${version}.json`, import.meta.url), 'utf8');

describe('a job of a newer version', () => {
  const newer = spoilt((f) => {
    f.job.schema = 99;
    f.job.slabs.bay.later = { a: [1] };
    f.job.heating = { on: true };
  });

  test('can be looked at, says so, and is saved as it came', () => {
    const file = readJobFile(newer, 'site.json');
    if (!file.ok) throw new Error(sentence(file.problem));
    const now = results(file.value.job);
    expect(now.takeoff.zones.find((z) => z.name === 'Vehicle bay')!.netArea.value).toBeCloseTo(6 * 6.5, 9);
    expect(now.remarks.map((r) => r.sentence).join()).toContain('saved by a newer slabwright (version 99');
    expect(JSON.parse(writeJobFile(file.value)).job).toEqual(JSON.parse(newer).job);
  });

  test('cannot be changed', () => {
    const file = readJobFile(newer, 'site.json');
    if (!file.ok) throw new Error();
    const { job } = file.value;
    const edit = { type: 'rename-job', args: { name: 'Other', note: '' } } as const;
    const next = commit(startHistory(job), edit);
    expect(next.ok ? 'changed' : sentence(next.problem)).toMatch(
      /can be looked at and saved as it is, not changed/,
    );
  });

  test('is refused in a sentence when it has another shape', () => {
    const strange = spoilt((f) => {
      f.job.schema = 99;
      f.job.slabs = [];
    });
    expect(refusal(strange)).toMatch(
      /saved by a newer slabwright .*: update slabwright and open it again\.$/,
    );
  });
});

test('weather is hours one after another, of days that there are', () => {
  const hour = (at: string) => ({
    at,
    airC: 12,
    humidityPct: 70,
    windKmH: 5,
    cloudPct: null,
    rainMm: null,
    sunWPerM2: null,
  });
  const read = (...hours: string[]) =>
    findShapeProblem(
      {
        ...emptyJob('j', 'J'),
        weather: { name: 'W', latitude: -37, longitude: 144, zoneH: 10, hours: hours.map(hour) },
      } as Job,
      emptyJob('j', 'J'),
    );
  expect(read('2026-02-28T23:00', '2026-03-01T00:00')).toBeNull();
  expect(read('2026-02-28T22:00', '2026-02-28T23:00', '2026-03-01T01:00')).toMatchObject({
    code: 'job/field',
    path: 'job.weather.hours',
  });
  expect(read('2026-02-28T22:00', '2026-02-28T22:00')).not.toBeNull();
  expect(read('2026-02-29T22:00')).not.toBeNull();
  expect(read()).not.toBeNull();
});
