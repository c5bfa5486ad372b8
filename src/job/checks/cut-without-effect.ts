import { type Check, remark } from './check.ts';

/** A cut that lies along no zone's boundary splits nothing: it ends inside, or misses the slab. */
export const cutWithoutEffect: Check = (job, takeoff) => {
  const remarks = [];
  for (const slab of takeoff.slabs) {
    const cuts = Object.values(job.cuts).filter((c) => c.slabId === slab.id);
    const zones = takeoff.zones.filter((z) => z.slabId === slab.id).length;
    if (cuts.length === 0 || zones > 1) continue;
    for (const cut of cuts) {
      const sentence = `A cut across “${slab.name}” does not reach from side to side, so it splits nothing: draw it on to a side, or delete it.`;
      remarks.push({
        ...remark('cut/no-effect', 'mind', cut.id, sentence),
        fixes: [{ label: 'Delete it', edit: { type: 'remove-cut', args: { cutId: cut.id } } as const }],
      });
    }
  }
  return remarks;
};
