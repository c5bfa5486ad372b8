import { tr } from '../../words/tr.ts';
import { type Check, type Remark, remark } from './check.ts';

/** Areas less sure than this share of themselves (95 %) say that the marks are too few, too close or too far away. */
const WEAK_SHARE = 0.05;

/** Photos whose horizon runs through a slab, or whose marks hold a slab too loosely. */
export const weakPhoto: Check = (job, takeoff) => {
  const remarks: Remark[] = takeoff.unseen.map((id) => {
    const it = job.slabs[id] ?? job.voids[id]!;
    const sheet = job.sheets[it.sheetId]!;
    const what = job.slabs[id] ? tr`slab` : tr`void`;
    return remark(
      'fit/horizon',
      'stop',
      id,
      tr`The ${what} “${it.name}” reaches to or beyond the horizon of “${sheet.name}”, where the photo shows no ground: end it nearer, or take another photo.`,
    );
  });
  for (const zone of takeoff.zones) {
    const kind = job.sheets[zone.sheetId]?.fit?.kind;
    if (kind !== 'marks' && kind !== 'straightened') continue;
    const share = zone.area95.value / Math.max(zone.netArea.value, 1e-9);
    if (share <= WEAK_SHARE) continue;
    remarks.push(
      remark(
        'fit/weak',
        'mind',
        zone.id,
        tr`The area of “${zone.name}” is known only to ± ${Math.round(share * 100)} %: the marks lie too close together, in a flat view, or too far from it. Add marks round it, or tape a side.`,
      ),
    );
  }
  return remarks;
};
