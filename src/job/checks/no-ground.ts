import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** Slabs that come to no ground at all, as on a sheet whose marks or scale squeeze them to a line. */
export const noGround: Check = (job, takeoff) => {
  const seen = new Set([...takeoff.zones.map((z) => z.slabId), ...takeoff.unscaled, ...takeoff.unseen]);
  return Object.values(job.slabs)
    .filter((slab) => !seen.has(slab.id))
    .map((slab) =>
      remark(
        'slab/no-ground',
        'stop',
        slab.id,
        tr`The slab “${slab.name}” comes to no ground at all: look at how its sheet “${job.sheets[slab.sheetId]!.name}” is scaled, or draw it again.`,
      ),
    );
};
