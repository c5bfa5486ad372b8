import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** Below this an overlap is the tracing, not the plan: 10 cm². */
const NOTHING_M2 = 1e-3;

export const overlappingSlabs: Check = (job, takeoff) =>
  takeoff.overlaps
    .filter(({ areaM2 }) => areaM2 > NOTHING_M2)
    .map(({ a, b, areaM2 }) =>
      remark(
        'slab/overlap',
        'mind',
        a,
        tr`“${job.slabs[a]!.name}” and “${job.slabs[b]!.name}” cover the same ${areaM2.toFixed(2)} m², which is counted twice: move a corner so that they only touch.`,
      ),
    );
