import type { Edit } from '../job/edits/index.ts';
import type { Job, Surface } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';

/** The edit that says something of a zone: in its own description where it has one, else in its slab's. */
export function describeZone(job: Job, zone: ZoneTakeoff, surface: Partial<Surface>): Edit {
  const tag = zone.tagId === null ? undefined : job.tags[zone.tagId];
  return tag
    ? { type: 'set-tag', args: { ...tag, surface: { ...tag.surface, ...surface } } }
    : { type: 'update-slab', args: { slabId: zone.slabId, surface } };
}
