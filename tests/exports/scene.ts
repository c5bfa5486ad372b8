import { readFileSync } from 'node:fs';
import { deskFor } from '../../src/cli/desk.ts';
import type { Desk } from '../../src/exports/desk.ts';
import { exportFor, writeExport } from '../../src/exports/index.ts';
import { readJobFile } from '../../src/job/file.ts';
import type { Job, JobFile } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';

export const DEMOS = ['workshop', 'yard', 'patio-photo', 'lane'];

/** A demo job as its file has it. */
export function demoFile(name: string): JobFile {
  const file = readJobFile(readFileSync(`demo-plans/${name}/job.json`, 'utf8'), 'job.json');
  if (!file.ok) throw new Error(sentence(file.problem));
  return file.value;
}

export const demo = (name: string): Job => demoFile(name).job;

/** A desk on a day that stays the same. */
export const DESK: Desk = {
  ...deskFor('demo-plans/yard/job.json', { job: {} as Job, images: {} }, undefined),
  today: '2026-03-02',
};

/** A job's file of the kind that its ending says. */
export async function exported(job: Job, ending: string, desk: Desk = DESK): Promise<Uint8Array> {
  const kind = exportFor(`x.${ending}`);
  if (!kind.ok) throw new Error(ending);
  const made = await writeExport(kind.value, results(job), desk);
  if (!made.ok) throw new Error(sentence(made.problem));
  return made.value;
}
