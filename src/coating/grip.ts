import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import { entered, type Source } from '../working/source.ts';
import { frictionPendulum, pendulumFriction, rampFriction } from './formulas.ts';

/** A class that a table suggests for a place. */
export interface GripAdvice {
  readonly place: string;
  readonly suggests: string;
  readonly source: Source;
}

/** Said wherever a class is named. */
export const GRIP_STATEMENT = tr`No dose of grip additive gives a class: only a wet pendulum test of the finished, cured surface does. A coat can take grip away from concrete that had it.`;

const locations: Source = {
  kind: 'published',
  title: tr`SA HB 198:2014, as reproduced by a slip-testing laboratory`,
  edition: '2014',
  clause: tr`table 3B`,
};
const pendulum: Source = {
  kind: 'published',
  title: tr`UKSRG guidelines, as quoted by slip-testing laboratories`,
  edition: '',
  clause: tr`slip potential`,
};
const dynamic: Source = {
  kind: 'published',
  title: tr`ANSI A326.3, as summarised on trade pages`,
  edition: '2021',
  clause: tr`exterior, wet`,
};

/** Steeper than this a ramp is treated more strictly. */
const STEEP = 1 / 14;

/** Steeper than this nobody drives or walks, and the correction says nothing. */
const STEEPEST = 0.25;

/** The pendulum value a slope wants to be as safe as 36 is on the level. */
export function rampPendulum(slope: number): Quantity {
  const P = leaf(tr`pendulum value on the level`, 'P', 36, '1', pendulum);
  const g = leaf(tr`rise over run`, 'g', slope, '1', entered);
  const mu0 = derive(tr`friction on the level`, pendulumFriction, { P });
  const mu = derive(tr`friction on the slope`, rampFriction, { mu0, g });
  return derive(tr`pendulum value on the slope`, frictionPendulum, { mu });
}

/** What tables of places suggest for a zone outdoors; the code in force and its certifier go first. */
export function gripAdvice(zone: ZoneTakeoff, slope: number): readonly GripAdvice[] {
  const advice: GripAdvice[] = [
    slope > STEEP
      ? {
          place: tr`outdoor ramp, drive or path steeper than 1:14`,
          suggests: tr`P5 (wet pendulum, slider 96: above 54)`,
          source: locations,
        }
      : {
          place:
            zone.surface.traffic === 'foot'
              ? tr`outdoor walkway or courtyard up to 1:14`
              : tr`outdoor driveway or car park up to 1:14`,
          suggests: tr`P4 (wet pendulum, slider 96: 45–54)`,
          source: locations,
        },
  ];
  if (slope > STEEPEST) return advice;
  const needed = rampPendulum(slope);
  advice.push({
    place: slope > 0 ? tr`low slip potential, on this slope as on the level` : tr`low slip potential`,
    suggests: tr`pendulum value of ${Math.ceil(needed.value)} or more, wet`,
    source: slope > 0 ? needed.source : pendulum,
  });
  if (slope <= 0.02) {
    advice.push({
      place: tr`level, outdoors, wet`,
      suggests: tr`dynamic friction of 0.55 or more`,
      source: dynamic,
    });
  }
  return advice;
}
