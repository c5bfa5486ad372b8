import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** Narrower than this a zone is not one that anybody rolls: 2 cm across at its widest. */
const NARROW_M = 0.01;

export const sliverZone: Check = (_job, takeoff) =>
  takeoff.zones
    .filter((zone) => zone.netArea.value <= 0 || (zone.label?.clearance ?? 0) < NARROW_M)
    .map((zone) =>
      zone.netArea.value <= 1e-9
        ? remark(
            'zone/covered',
            'mind',
            zone.id,
            tr`Nothing of “${zone.name}” is left to coat: what is taken out covers it; check its size.`,
          )
        : remark(
            'zone/sliver',
            'mind',
            zone.id,
            tr`“${zone.name}” is nowhere wider than 2 cm: move the cut or the corner that makes it, or delete the cut.`,
          ),
    );
