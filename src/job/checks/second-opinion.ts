import { tr } from '../../words/tr.ts';
import { type Check, remark } from './check.ts';

/** The two engines that compute every area came to different answers. */
export const enginesDisagree: Check = (_job, takeoff) =>
  takeoff.zones
    .filter((zone) => zone.secondOpinion !== 'agree')
    .map((zone) =>
      remark(
        'area/unconfirmed',
        'mind',
        zone.id,
        tr`The area of “${zone.name}” could not be confirmed by a second computation: check it by hand, and move corners that lie very close together apart.`,
      ),
    );
