import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

export const nothingDrawn: Check = (job) => {
  if (Object.keys(job.slabs).length > 0) return [];
  const next =
    Object.keys(job.sheets).length > 0
      ? tr`take the Slab tool and trace the first slab.`
      : tr`open a plan or start a blank grid, then trace the first slab.`;
  return [remark('job/empty', 'note', null, tr`There is no slab yet: ${next}`)];
};
