import type { Edit } from '../job/edits/index.ts';
import type { Id, Job, Surface, Tag } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import type { SheetPoint } from '../units/types.ts';

/** What is said of a zone: of its slab where that is one zone, else on a tag pinned within it. */
export function zoneDescribed(
  job: Job,
  zone: ZoneTakeoff,
  /** How many zones its slab has. */
  siblings: number,
  /** Where a new tag is pinned. */
  anchor: SheetPoint,
  newId: (prefix: string) => Id,
  change: { readonly name?: string; readonly surface?: Partial<Surface> },
): Edit {
  if (siblings === 1 && !zone.tagId) return { type: 'update-slab', args: { slabId: zone.slabId, ...change } };
  const old = zone.tagId ? job.tags[zone.tagId] : undefined;
  const tag: Tag = old ?? { id: newId('t'), slabId: zone.slabId, anchor, name: '', surface: {} };
  const surface = { ...tag.surface, ...change.surface };
  return { type: 'set-tag', args: { ...tag, name: change.name ?? tag.name, surface } };
}
