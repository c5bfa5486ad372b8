import type { Product } from '../coating/systems/system.ts';
import type { Job } from '../job/types.ts';
import type { SlabHour } from './climate.ts';
import * as formulas from './formulas.ts';
import { dayValue } from './values.ts';

export const STAGES = ['touch', 'recoat', 'foot', 'vehicle'] as const;
/** How far a coat has dried: to the touch, to be coated over, to be walked on, to be driven on. */
export type Stage = (typeof STAGES)[number];

/** How a product dries: by its water leaving, by its solvent leaving, or by reacting. */
const familyOf = ({ kind, carrier }: Product): 'water' | 'solvent' | 'two-pack' =>
  kind === 'two-pack' ? 'two-pack' : carrier;

/** Evaporation in the climate that labels are written for: 23 °C, 50 %, 5 km/h. */
export const LABEL_EVAPORATION = formulas.evaporation.evaluate({ Tc: 23, Ta: 23, RH: 50, V: 5 });
const LABEL_C = 23;

/** The label's hours for a stage. */
export const labelHours = (job: Job, product: Product, stage: Stage): number =>
  dayValue(job, `drying.${stage}-${familyOf(product)}`).value;

/** How fast a product dries in an hour, as a share of the label's speed: never above 1, and never quite 0. */
export function speed(product: Product, { evaporation, slabC }: SlabHour): number {
  const s =
    familyOf(product) === 'water'
      ? evaporation / LABEL_EVAPORATION
      : 1 / formulas.cureByTemperature.evaluate({ t1: 1, T1: LABEL_C, T2: slabC });
  return Math.min(1, Math.max(s, 0.01));
}

/**
 * When something that takes `labelH` hours in the label's climate is done, from hour `start` on.
 * @returns hours since the first of the climate; null where the weather known ends before
 */
export function doneAt(
  climate: readonly SlabHour[],
  start: number,
  labelH: number,
  speedAt: (hour: SlabHour) => number,
): number | null {
  let left = labelH;
  for (let t = start; t < climate.length; ) {
    const hour = climate[Math.floor(t)]!;
    const until = Math.floor(t) + 1;
    const step = speedAt(hour);
    if (step * (until - t) >= left - 1e-12) return t + left / step;
    left -= step * (until - t);
    t = until;
  }
  return null;
}

/** When a coat put down by `end` has come to a stage; null where the weather known ends before. */
export const stageAt = (
  job: Job,
  climate: readonly SlabHour[],
  product: Product,
  end: number,
  stage: Stage,
): number | null => {
  const speeds = speedsOf(climate, product);
  return doneAt(climate, end, labelHours(job, product, stage), (hour) => speeds[hour.index]!);
};

/** A product's speed in every hour of a climate, worked out once. */
function speedsOf(climate: readonly SlabHour[], product: Product): Float64Array {
  const known = SPEEDS.get(climate) ?? new Map<string, Float64Array>();
  SPEEDS.set(climate, known);
  const speeds = known.get(product.id) ?? Float64Array.from(climate, (hour) => speed(product, hour));
  known.set(product.id, speeds);
  return speeds;
}

const SPEEDS = new WeakMap<readonly SlabHour[], Map<string, Float64Array>>();

/** When concrete rinsed by `end` is dry; rain starts it again. */
export function dryAfterWash(job: Job, climate: readonly SlabHour[], end: number): number | null {
  const rain = dayValue(job, 'weather.rain').value;
  const hours = dayValue(job, 'drying.after-wash').value;
  let from = end;
  for (;;) {
    const done = doneAt(climate, from, hours, ({ evaporation }) =>
      Math.min(1, Math.max(evaporation / LABEL_EVAPORATION, 0.01)),
    );
    const wet = climate.findIndex(
      (h) => h.index + 1 > from && h.index < (done ?? climate.length) && (h.hour.rainMm ?? 0) >= rain,
    );
    if (wet < 0) return done;
    from = wet + 1;
  }
}
