import { sentence } from '../../problem.ts';
import { tr } from '../../words/tr.ts';
import { voidCalled } from '../names.ts';
import { type Check, remark } from './check.ts';

/** Below this a void only grazes a slab: 1 cm². */
const NOTHING_M2 = 1e-4;

export const voidOutside: Check = (job, takeoff) =>
  takeoff.voids
    .filter(({ id }) => !takeoff.unseen.includes(id))
    .filter(({ id, insideAreaM2 }) => insideAreaM2 < NOTHING_M2 && job.sheets[job.voids[id]!.sheetId]!.fit)
    .map(({ id }) => {
      const v = job.voids[id]!;
      const what = voidCalled(v);
      return {
        ...remark('void/outside', 'mind', id, sentence({ code: 'void/outside', what })),
        fixes: [{ label: tr`Delete it`, edit: { type: 'remove-void', args: { voidId: id } } }],
      };
    });
