import type { Id, Job } from './types.ts';

/** Every picture that a job needs: under its sheets, and of work as it was done. */
export const imageIdsOf = (job: Job): Id[] => [
  ...new Set([
    ...Object.values(job.sheets).flatMap((s) => (s.picture ? [s.picture.imageId] : [])),
    ...Object.values(job.records ?? {}).flatMap((r) => r.photos),
  ]),
];
