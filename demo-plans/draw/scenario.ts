import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { orderJson } from '../../src/exports/order-json.ts';
import { coatingJson, takeoffJson } from '../../src/exports/takeoff-json.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { writeJobFile } from '../../src/job/file.ts';
import { emptyJob, type Job, type JobImage } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';

/** Said in every demo job. */
export const INVENTED =
  'Invented data: Fernhollow Workshop does not exist, and nobody measured it. Made to show what slabwright does.';

/** Replays edits on an empty job; a refused edit stops the script. */
export function build(id: string, name: string, note: string, edits: readonly Edit[]): Job {
  let job = emptyJob(id, name);
  job = { ...job, note };
  for (const edit of edits) {
    const next = applyEdit(job, edit);
    if (!next.ok) throw new Error(`${edit.type}: ${sentence(next.problem)}`);
    job = next.value;
  }
  return job;
}

/** Writes job.json, and with it what the program makes of it, for the golden test. */
export function save(folder: string, job: Job, images: Readonly<Record<string, JobImage>>): void {
  const dir = fileURLToPath(new URL(`../${folder}/`, import.meta.url));
  mkdirSync(dir, { recursive: true });
  writeFileSync(`${dir}job.json`, writeJobFile({ job, images }));
  const r = results(job);
  const expected = { takeoff: takeoffJson(r), coating: coatingJson(r), order: orderJson(r) };
  writeFileSync(`${dir}expected.json`, `${JSON.stringify(expected, null, 1)}\n`);
}

/** Where a demo's picture goes. */
export const pictureFile = (folder: string, name: string): string =>
  fileURLToPath(new URL(`../${folder}/${name}`, import.meta.url));
