import { type Check, remark } from './check.ts';

export const nothingDrawn: Check = (job) =>
  Object.keys(job.slabs).length > 0
    ? []
    : [
        remark(
          'job/empty',
          'note',
          null,
          'There is no slab yet: open a plan or start a blank grid, then trace the first slab.',
        ),
      ];
