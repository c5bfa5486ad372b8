import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** Two descriptions in one zone: which one holds is the user's to say. */
export const twoTagsInOneZone: Check = (job, takeoff) =>
  takeoff.zones
    .filter((zone) => zone.tagIds.length > 1)
    .map((zone) => {
      const names = zone.tagIds.map((id) => `“${job.tags[id]!.name || tr`unnamed`}”`).join(tr` and `);
      return {
        ...remark(
          'tag/two-in-one',
          'mind',
          zone.id,
          tr`Two descriptions, ${names}, lie in one zone now: keep one of them; until then the first is used.`,
        ),
        fixes: zone.tagIds.slice(1).map((tagId) => ({
          label: tr`Drop “${job.tags[tagId]!.name || tr`unnamed`}”`,
          edit: { type: 'remove-tag', args: { tagId } } as const,
        })),
      };
    });

/** A description that lies in no zone of its slab any more. */
export const tagOutside: Check = (job, takeoff) => {
  const held = new Set(takeoff.zones.flatMap((z) => z.tagIds));
  return Object.values(job.tags)
    .filter((tag) => !held.has(tag.id) && !takeoff.unscaled.includes(tag.slabId))
    .map((tag) => ({
      ...remark(
        'tag/outside',
        'mind',
        tag.id,
        tr`The description “${tag.name || tr`unnamed`}” lies in no zone of “${job.slabs[tag.slabId]!.name}” any more: describe the zone again, or drop it.`,
      ),
      fixes: [{ label: tr`Drop it`, edit: { type: 'remove-tag', args: { tagId: tag.id } } }],
    }));
};
