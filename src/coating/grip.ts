import type { ZoneTakeoff } from '../takeoff/zone.ts';
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
export const GRIP_STATEMENT =
  'No dose of grip additive gives a class: only a wet pendulum test of the finished, cured surface does. A coat can take grip away from concrete that had it.';

const locations: Source = {
  kind: 'published',
  title: 'SA HB 198:2014, as reproduced by a slip-testing laboratory',
  edition: '2014',
  clause: 'table 3B',
};
const pendulum: Source = {
  kind: 'published',
  title: 'UKSRG guidelines, as quoted by slip-testing laboratories',
  edition: '',
  clause: 'slip potential',
};
const dynamic: Source = {
  kind: 'published',
  title: 'ANSI A326.3, as summarised on trade pages',
  edition: '2021',
  clause: 'exterior, wet',
};

/** Steeper than this a ramp is treated more strictly. */
const STEEP = 1 / 14;

/** Steeper than this nobody drives or walks, and the correction says nothing. */
const STEEPEST = 0.25;

/** The pendulum value a slope wants to be as safe as 36 is on the level. */
export function rampPendulum(slope: number): Quantity {
  const P = leaf('pendulum value on the level', 'P', 36, '1', pendulum);
  const g = leaf('rise over run', 'g', slope, '1', entered);
  const mu0 = derive('friction on the level', pendulumFriction, { P });
  const mu = derive('friction on the slope', rampFriction, { mu0, g });
  return derive('pendulum value on the slope', frictionPendulum, { mu });
}

/** What tables of places suggest for a zone outdoors; the code in force and its certifier go first. */
export function gripAdvice(zone: ZoneTakeoff, slope: number): readonly GripAdvice[] {
  const advice: GripAdvice[] = [
    slope > STEEP
      ? {
          place: 'outdoor ramp, drive or path steeper than 1:14',
          suggests: 'P5 (wet pendulum, slider 96: above 54)',
          source: locations,
        }
      : {
          place:
            zone.surface.traffic === 'foot'
              ? 'outdoor walkway or courtyard up to 1:14'
              : 'outdoor driveway or car park up to 1:14',
          suggests: 'P4 (wet pendulum, slider 96: 45–54)',
          source: locations,
        },
  ];
  if (slope > STEEPEST) return advice;
  const needed = rampPendulum(slope);
  advice.push({
    place: slope > 0 ? 'low slip potential, on this slope as on the level' : 'low slip potential',
    suggests: `pendulum value of ${Math.ceil(needed.value)} or more, wet`,
    source: slope > 0 ? needed.source : pendulum,
  });
  if (slope <= 0.02) {
    advice.push({
      place: 'level, outdoors, wet',
      suggests: 'dynamic friction of 0.55 or more',
      source: dynamic,
    });
  }
  return advice;
}
