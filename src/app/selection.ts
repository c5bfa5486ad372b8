import type { Selection } from '../board/tools/tool.ts';
import type { Results } from '../results.ts';
import { zoneAt } from '../takeoff/zone.ts';

/** The selection as it goes by now; null when it is gone. */
export function stillThere(
  selection: Selection | null,
  { job, takeoff }: Results,
  before: Results | null = null,
): Selection | null {
  if (!selection) return null;
  switch (selection.kind) {
    case 'zone': {
      if (takeoff.zones.some((z) => z.id === selection.id)) return selection;
      // A zone that got or lost its tag goes by another id: find it by where it was. One without scale is all slab.
      const old = before?.takeoff.zones.find((z) => z.id === selection.id);
      const slabId = old?.slabId ?? selection.id.split('/')[0]!;
      const siblings = takeoff.zones.filter((z) => z.slabId === slabId);
      const inside = old?.label && zoneAt(siblings, old.label.point);
      const zone = inside ?? siblings[0];
      if (zone) return { kind: 'zone', id: zone.id };
      return Object.hasOwn(job.slabs, slabId) ? { kind: 'zone', id: slabId } : null;
    }
    case 'void':
      return Object.hasOwn(job.voids, selection.id) ? selection : null;
    case 'cut':
      return Object.hasOwn(job.cuts, selection.id) ? selection : null;
    case 'corner':
      return Object.hasOwn(job.corners, selection.id) ? selection : null;
  }
}
