import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../src/job/edits/index.ts';
import { readJobFile } from '../../src/job/file.ts';
import { byName, nameSorter } from '../../src/job/order.ts';
import type { Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { type Results, results, resultsKeeper } from '../../src/results.ts';
import { edited, oneSlab, slabEdit } from '../coating/scene.ts';
import { someEdit } from '../random/job-edits.ts';
import { randomNumbers } from '../random/numbers.ts';

function demo(name: string): Job {
  const text = readFileSync(new URL(`../../demo-plans/${name}/job.json`, import.meta.url), 'utf8');
  const file = readJobFile(text, 'job.json');
  if (!file.ok) throw new Error(sentence(file.problem));
  return file.value.job;
}

/** Everything a person sees of the measuring and the coats, with all workings, to twelve digits. */
const seen = ({ takeoff, coating }: Results): string =>
  JSON.stringify({ ...takeoff, sheets: [], coating }, (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(12)) : value,
  );

describe('what is kept from one job to the next', () => {
  test.each(['workshop', 'yard', 'lane', 'patio-photo', 'one slab'])(
    '%s: after every one of many changes, the same numbers and words as worked out afresh',
    (name) => {
      const random = randomNumbers(name.length);
      const keep = resultsKeeper();
      let job = name === 'one slab' ? oneSlab() : demo(name);
      let n = 0;
      let taken = 0;
      for (let i = 0; i < 60; i++) {
        const next = applyEdit(
          job,
          someEdit(job, random, () => `fresh${n++}`),
        );
        if (!next.ok) continue;
        job = next.value;
        taken++;
        expect(seen(keep(job)), `change ${i}`).toBe(seen(results(job)));
      }
      expect(taken).toBeGreaterThan(30);
    },
  );

  test('a moved corner leaves the zones of other slabs the very same, and their coats', () => {
    const keep = resultsKeeper();
    const job = edited(oneSlab(), slabEdit('b', [30, 6, 4]));
    const before = keep(job);
    const moved = applyEdit(job, { type: 'move-corner', args: { cornerId: 'a0', x: -0.5, y: 0 } });
    if (!moved.ok) throw new Error(sentence(moved.problem));
    const now = keep(moved.value);
    const same = now.takeoff.zones.filter((zone) => before.takeoff.zones.includes(zone));
    expect(same.map((zone) => zone.slabId)).toEqual(['b']);
    expect(before.coating.zones).toContain(now.coating.zones.find((z) => z.zoneId === same[0]!.id));
    expect(now.takeoff.zones.find((zone) => zone.slabId === 'a')!.netArea.value).toBeCloseTo(82, 9);
  });

  test('lists are sorted by name whether or not the last list had the same names', () => {
    const sort = nameSorter();
    const random = randomNumbers(5);
    for (let i = 0; i < 200; i++) {
      const items = Array.from({ length: Math.floor(random() * 6) }, (_, k) => ({
        id: `${k}`,
        name: `Slab ${Math.floor(random() * 3) * 9}`,
        n: random(),
      }));
      expect(sort(items)).toEqual([...items].sort(byName));
      expect(sort(items.map((x) => ({ ...x, n: 0 })))).toEqual(
        [...items].sort(byName).map((x) => ({ ...x, n: 0 })),
      );
    }
  });
});
