import type { PaintTotal } from '../coating/coating.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import type { Litres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { PackChoice } from './packs.ts';

/** Zones of one product and colour that are seen together: they touch, or are cut from one slab. */
export interface VisibleArea {
  readonly zoneNames: readonly string[];
  readonly litres: Litres;
}

/** The areas seen together that one product and colour is spread over, the largest first. */
export function visibleAreas(zones: readonly ZoneTakeoff[], paint: PaintTotal): VisibleArea[] {
  const litres = new Map<number, number>();
  for (const { zone, coat } of paint.parts) litres.set(zone, (litres.get(zone) ?? 0) + coat.paint.value);
  const left = new Set(litres.keys());
  const areas: VisibleArea[] = [];
  for (const start of litres.keys()) {
    if (!left.delete(start)) continue;
    const together = [start];
    for (const at of together) {
      for (const other of left) {
        if (!touch(zones[at]!, zones[other]!)) continue;
        left.delete(other);
        together.push(other);
      }
    }
    areas.push({
      zoneNames: together.map((i) => zones[i]!.name),
      litres: together.reduce((sum, i) => sum + litres.get(i)!, 0),
    });
  }
  return areas.sort((a, b) => b.litres - a.litres);
}

const touch = (a: ZoneTakeoff, b: ZoneTakeoff): boolean =>
  a.slabId === b.slabId || a.stretches.some((s) => s.kind === 'slab' && s.ref === b.slabId);

/** How to keep one batch to one area; empty where one pack does it. */
export function boxingAdvice(areas: readonly VisibleArea[], choice: PackChoice | null): string {
  const packs = choice?.packs.reduce((n, p) => n + p.count, 0) ?? 0;
  if (packs < 2) return '';
  const where =
    areas.length === 1
      ? tr`All of it is seen together (${areas[0]!.zoneNames.join(', ')}): take one batch number`
      : tr`It lies in ${areas.length} places that are not seen together: one batch number for each (${areas
          .map((a) => `${a.zoneNames.join(tr` and `)} ${a.litres.toFixed(1)} L`)
          .join('; ')})`;
  return tr`${where}, and mix the packs of a place with one another before the first coat, or keep half of each pack to mix into the next; never change packs in the middle of a slab.`;
}
