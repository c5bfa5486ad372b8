import { itemsOf, selectionOf } from '../board/tools/several.ts';
import type { Item, Selection } from '../board/tools/tool.ts';
import type { SelectedIds } from '../board/view/draw-zones.ts';
import type { Results } from '../results.ts';
import { slabIdOf, zoneAt } from '../takeoff/zone.ts';
import { sameItems } from '../working/kept.ts';

/** The selection as it goes by now; null when it is gone. */
export function stillThere(
  selection: Selection | null,
  now: Results,
  before: Results | null = null,
): Selection | null {
  if (selection?.kind !== 'several') return selection && itemNow(selection, now, before);
  const items = selection.items.flatMap((item) => itemNow(item, now, before) ?? []);
  return sameItems(items, selection.items) ? selection : selectionOf(items);
}

/** What is selected, by kind, for the board to draw. */
export function selectedIds(selection: Selection | null): SelectedIds {
  const of = (kind: Item['kind']) =>
    new Set(itemsOf(selection).flatMap((item) => (item.kind === kind ? [item.id] : [])));
  return { zones: of('zone'), voids: of('void'), cuts: of('cut') };
}

function itemNow(selection: Item, { job, takeoff }: Results, before: Results | null): Item | null {
  switch (selection.kind) {
    case 'zone': {
      if (takeoff.zones.some((z) => z.id === selection.id)) return selection;
      // A zone that got or lost its tag goes by another id: find it by where it was. One without scale is all slab.
      const old = before?.takeoff.zones.find((z) => z.id === selection.id);
      const slabId = slabIdOf(before?.takeoff ?? takeoff, selection.id);
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
