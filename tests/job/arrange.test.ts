import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { mirroredSlab, rowOfCopies, turnedSlab } from '../../src/job/arrange.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { readJobFile } from '../../src/job/file.ts';
import { slabRing } from '../../src/job/outline.ts';
import type { Job } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';
import { groundFrame } from '../../src/takeoff/ground.ts';

function demo(name: string): Job {
  const text = readFileSync(new URL(`../../demo-plans/${name}/job.json`, import.meta.url), 'utf8');
  const file = readJobFile(text, 'job.json');
  if (!file.ok) throw new Error(sentence(file.problem));
  return file.value.job;
}

function edited(job: Job, edits: readonly Edit[]): Job {
  return edits.reduce((j, edit) => {
    const next = applyEdit(j, edit);
    if (!next.ok) throw new Error(sentence(next.problem));
    return next.value;
  }, job);
}

/** Ids that the job does not have. */
const fresh = () => {
  let n = 0;
  return () => `fresh${n++}`;
};

const courtyard = (job: Job) => results(job).takeoff.zones.find((z) => z.name === 'Courtyard')!;
const slab = (job: Job) => Object.values(job.slabs).find((s) => s.name === 'Courtyard')!;
const frame = (job: Job) => groundFrame(job, job.sheets[slab(job).sheetId]!)!;
const sizes = (job: Job) => {
  const z = courtyard(job);
  return [z.netArea.value, z.stretches.reduce((sum, s) => sum + s.lengthM, 0)];
};

test('a slab turned or mirrored keeps its sizes, its arc, and what is taken out of it', () => {
  // Turning and mirroring are isometries: areas and lengths stay (Euclid).
  const job = demo('workshop');
  const was = sizes(job);
  for (const edits of [
    turnedSlab(job, slab(job), frame(job), 0.7, fresh()),
    mirroredSlab(job, slab(job), frame(job), 'left-right', fresh()),
    mirroredSlab(job, slab(job), frame(job), 'top-bottom', fresh()),
  ]) {
    const now = sizes(edited(job, edits));
    expect(now[0]).toBeCloseTo(was[0]!, 9);
    expect(now[1]).toBeCloseTo(was[1]!, 9);
  }
});

test('turned there and back, or mirrored twice, it is the same outline; its neighbours stay where they were', () => {
  const job = demo('workshop');
  const ids = fresh();
  const there: Array<(j: Job, back: boolean) => Edit[]> = [
    (j, back) => turnedSlab(j, slab(j), frame(j), back ? -0.7 : 0.7, ids),
    (j) => mirroredSlab(j, slab(j), frame(j), 'left-right', ids),
    (j) => mirroredSlab(j, slab(j), frame(j), 'top-bottom', ids),
  ];
  const outline = (j: Job) => slabRing(j, slab(j)).flatMap((v) => [v.x, v.y, v.via?.x ?? 0, v.via?.y ?? 0]);
  for (const make of there) {
    const once = edited(job, make(job, false));
    for (const s of Object.values(job.slabs)) {
      if (s.id === slab(job).id) continue;
      expect(slabRing(once, once.slabs[s.id]!)).toEqual(slabRing(job, s));
    }
    const twice = edited(once, make(once, true));
    // The middle of the extent moves when it is turned: what counts is the shape.
    const [was, now] = [outline(job), outline(twice)];
    const [dx, dy] = [now[0]! - was[0]!, now[1]! - was[1]!];
    if (make !== there[0]) expect(Math.hypot(dx, dy)).toBeLessThan(1e-6);
    was.forEach((v, i) => {
      const by = i % 4 > 1 && v === 0 ? 0 : i % 2 === 0 ? dx : dy;
      expect(now[i]).toBeCloseTo(v + by, 6);
    });
  }
});

test('posts every 2.4 m along a side, each a name of its own', () => {
  const grid: Edit[] = [
    { type: 'add-sheet', args: { id: 'g', name: 'Grid', picture: null, fit: { kind: 'metric' } } },
    {
      type: 'add-void',
      args: {
        id: 'p',
        name: 'Post 1',
        kind: 'post',
        sheetId: 'g',
        shape: { type: 'circle', centre: { x: 1, y: 1 }, radiusM: 0.05 },
      },
    },
  ];
  const job = edited(demo('yard'), grid);
  let n = 0;
  const edits = rowOfCopies(
    job,
    job.voids.p!,
    groundFrame(job, job.sheets.g!)!,
    3,
    2.4,
    { kind: 'up' },
    () => `n${n++}`,
  );
  const posts = Object.values(edited(job, edits).voids).filter((v) => v.sheetId === 'g');
  expect(posts.map((v) => v.name)).toEqual(['Post 1', 'Post 2', 'Post 3', 'Post 4']);
  posts.forEach((v, i) => {
    expect(v.shape.type === 'circle' && v.shape.centre.x).toBe(1);
    expect(v.shape.type === 'circle' && v.shape.centre.y).toBeCloseTo(1 + 2.4 * i, 9);
  });
});
