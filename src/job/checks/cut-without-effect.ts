import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** A cut that lies along no zone's boundary splits nothing: it ends inside, or misses the slab. */
export const cutWithoutEffect: Check = (job, takeoff) => {
  const effective = new Set(takeoff.zones.flatMap((z) => z.stretches.flatMap((s) => s.cutId ?? [])));
  return Object.values(job.cuts)
    .filter((cut) => !effective.has(cut.id) && !takeoff.unscaled.includes(cut.slabId))
    .map((cut) => {
      const name = job.slabs[cut.slabId]!.name;
      const sentence = tr`A cut across “${name}” does not reach from side to side, so it splits nothing: draw it on to a side, or delete it.`;
      return {
        ...remark('cut/no-effect', 'mind', cut.id, sentence),
        fixes: [{ label: tr`Delete it`, edit: { type: 'remove-cut', args: { cutId: cut.id } } as const }],
      };
    });
};
