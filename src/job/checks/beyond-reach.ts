import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** Corners farther from the known length than its scale can be believed, as on a photo taken at an angle. */
export const beyondReach: Check = (job) => {
  const remarks = [];
  for (const sheet of Object.values(job.sheets)) {
    if (sheet.fit?.kind !== 'scale' || !sheet.fit.reach) continue;
    const { lengths, reach } = sheet.fit;
    const far = Object.values(job.corners).filter((corner) => {
      if (corner.sheetId !== sheet.id) return false;
      return lengths.every(({ a, b, lengthM }) => {
        const perUnit = lengthM / Math.hypot(b.x - a.x, b.y - a.y);
        return Math.hypot(corner.x - (a.x + b.x) / 2, corner.y - (a.y + b.y) / 2) * perUnit > reach.distanceM;
      });
    }).length;
    if (far === 0) continue;
    const corners = far === 1 ? tr`1 corner lies` : tr`${far} corners lie`;
    remarks.push(
      remark(
        'fit/beyond-reach',
        'mind',
        sheet.id,
        tr`On “${sheet.name}” ${corners} more than ${reach.distanceM} m from the known length, where its scale cannot be believed (${reach.reason}): measure those sides by tape.`,
      ),
    );
  }
  return remarks;
};
