import { type Check, remark } from './check.ts';

export const nothingDrawn: Check = (job) => {
  if (Object.keys(job.slabs).length > 0) return [];
  const next =
    Object.keys(job.sheets).length > 0
      ? 'take the Slab tool and trace the first slab.'
      : 'open a plan or start a blank grid, then trace the first slab.';
  return [remark('job/empty', 'note', null, `There is no slab yet: ${next}`)];
};
