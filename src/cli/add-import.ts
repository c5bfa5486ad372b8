import { ok, type Result } from '../../geometry/result.ts';
import type { Imported, ImportOptions } from '../imports/index.ts';
import { applyEdits } from '../job/edits/index.ts';
import { emptyJob, type Job, type JobFile } from '../job/types.ts';
import type { Problem } from '../problem.ts';

/** What was typed after `import`. */
export interface ImportCommand {
  readonly to: string;
  readonly units?: string;
  readonly scale?: string;
  readonly page?: number;
  readonly password?: string;
  readonly layers?: string;
}

/** The same as the importer takes it. */
export function importOptions({ units, scale, page, password, layers }: ImportCommand): ImportOptions {
  const ratio = scale === undefined ? undefined : Number(scale.replace(/^\s*1\s*:\s*/, ''));
  return {
    ...(units === undefined ? {} : { units }),
    ...(ratio === undefined ? {} : { ratio }),
    ...(page === undefined ? {} : { page }),
    ...(password === undefined ? {} : { password }),
    ...(layers === undefined ? {} : { layers: layers.split(',').map((l) => l.trim()) }),
  };
}

/** Ids that count up, past those a job has. */
export function idsFor(job: Job | undefined): (prefix: string) => string {
  const taken = new Set(
    job ? [job.sheets, job.corners, job.slabs, job.voids].flatMap((m) => Object.keys(m)) : [],
  );
  const images = Object.values(job?.sheets ?? {}).flatMap((s) => (s.picture ? [s.picture.imageId] : []));
  for (const id of images) taken.add(id);
  let n = 0;
  return (prefix) => {
    do n += 1;
    while (taken.has(`${prefix}${n}`));
    return `${prefix}${n}`;
  };
}

/** The job with what a file adds to it, its picture inside. */
export function addImport(old: JobFile | null, { sheet, edits, image }: Imported): Result<JobFile, Problem> {
  const added = applyEdits(old?.job ?? emptyJob('job', sheet.name), edits);
  if (!added.ok) return added;
  const picture = image && {
    [image.id]: { type: image.type, base64: Buffer.from(image.bytes).toString('base64') },
  };
  return ok({ job: added.value, images: { ...old?.images, ...picture } });
}
