import type { Product } from '../coating/systems/system.ts';
import { valueByKey } from '../coating/values.ts';
import type { Job } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import type { SlabHour } from './climate.ts';
import { LABEL_EVAPORATION, stageAt } from './drying.ts';
import { dayValue } from './values.ts';

/** Whether a product may go down in an hour; wait where a later hour of the day will do. */
export interface HourVerdict {
  readonly go: 'go' | 'wait' | 'no';
  readonly code:
    | 'good'
    | 'cold'
    | 'hot'
    | 'dew'
    | 'humid'
    | 'wind'
    | 'rain'
    | 'wet'
    | 'rain-before-dry'
    | 'dew-before-dry'
    | 'film'
    | 'dark'
    | 'unknown';
  /** The one reason that decides. */
  readonly reason: string;
}

const c = (celsius: number) => `${Number(celsius.toFixed(1))} °C`;

/** The reason against one hour, or null; the first that holds decides. */
function against(
  job: Job,
  climate: readonly SlabHour[],
  at: SlabHour,
  product: Product,
  wet: boolean,
): Pick<HourVerdict, 'code' | 'reason'> | null {
  const { hour, slabC, dewC } = at;
  const value = (key: string) => dayValue(job, key).value;
  const coldest = valueByKey(job, 'ready.coldest').value;
  const hottest = valueByKey(job, 'ready.hottest').value;
  const margin = value('weather.margin');
  const rain = value('weather.rain');
  const low = Math.min(hour.airC, slabC);
  const high = Math.max(hour.airC, slabC);
  if ((hour.rainMm ?? 0) >= rain) return { code: 'rain', reason: tr`It rains.` };
  if (wet) return { code: 'wet', reason: tr`Rain or dew has not dried off it yet.` };
  if (low < coldest)
    return { code: 'cold', reason: tr`At ${c(low)} it is below the ${c(coldest)} that coats want.` };
  if (high > hottest)
    return { code: 'hot', reason: tr`At ${c(high)} it is above the ${c(hottest)} that coats bear.` };
  if (slabC - dewC < margin) {
    return {
      code: 'dew',
      reason: tr`The slab is ${c(Math.max(0, slabC - dewC))} above the dew point, and ${c(margin)} are wanted.`,
    };
  }
  if (hour.humidityPct > value('weather.humidity')) {
    return { code: 'humid', reason: tr`The air holds ${hour.humidityPct} % humidity.` };
  }
  if (hour.windKmH > value('weather.wind')) {
    return {
      code: 'wind',
      reason: tr`Wind of ${Math.round(hour.windKmH)} km/h blows dust and leaves into it.`,
    };
  }
  return beforeDry(job, climate, at, product);
}

/** What happens to a coat before it is dry to the touch, and to a film that has to form overnight. */
function beforeDry(
  job: Job,
  climate: readonly SlabHour[],
  at: SlabHour,
  product: Product,
): Pick<HourVerdict, 'code' | 'reason'> | null {
  const rain = dayValue(job, 'weather.rain').value;
  const dry = stageAt(job, climate, product, at.index + 1, 'touch');
  const words = (h: SlabHour) => h.hour.at.slice(11, 16);
  if (dry === null)
    return { code: 'unknown', reason: tr`The weather known ends before it would be dry to the touch.` };
  const safe = dry + dayValue(job, 'weather.dry-before').value;
  if (safe > climate.length) {
    return { code: 'unknown', reason: tr`The weather known ends before it would be safe from rain and dew.` };
  }
  for (const h of climate.slice(at.index + 1, Math.ceil(safe))) {
    if ((h.hour.rainMm ?? 0) >= rain) {
      return { code: 'rain-before-dry', reason: tr`Rain at ${words(h)} comes too soon after it.` };
    }
    // The margin holds while it dries, too.
    if (h.slabC - h.dewC < dayValue(job, 'weather.margin').value) {
      return { code: 'dew-before-dry', reason: tr`Dew at ${words(h)} comes too soon for it to have dried.` };
    }
  }
  return product.kind === 'sealer' ? null : coldNight(job, climate, at, product);
}

/** Whether the slab grows too cold for the film while it forms: the hours after, and until it could be coated over. */
function coldNight(
  job: Job,
  climate: readonly SlabHour[],
  at: SlabHour,
  product: Product,
): Pick<HourVerdict, 'code' | 'reason'> | null {
  const recoat = stageAt(job, climate, product, at.index + 1, 'recoat');
  const until = Math.max(at.index + 1 + dayValue(job, 'weather.film-hours').value, recoat ?? Infinity);
  // What reacts needs the warmth it is put down in.
  const least =
    product.kind === 'two-pack'
      ? valueByKey(job, 'ready.coldest').value
      : dayValue(job, 'weather.film-coldest').value;
  const cold = climate.slice(at.index + 1, Math.ceil(until)).find((h) => h.slabC < least);
  if (cold) {
    const when = cold.hour.at.slice(11, 16);
    return {
      code: 'film',
      reason: tr`The slab falls to ${c(cold.slabC)} at ${when}, too cold for the film to form.`,
    };
  }
  return until > climate.length
    ? { code: 'unknown', reason: tr`The weather known ends before its film has formed.` }
    : null;
}

/** Whether rain or dew lies on the slab at the start of each hour: it dries off at the speed that water evaporates. */
function wetHours(job: Job, climate: readonly SlabHour[]): boolean[] {
  const rain = dayValue(job, 'weather.rain').value;
  const afterRain = dayValue(job, 'drying.after-rain').value;
  const afterDew = dayValue(job, 'drying.after-dew').value;
  let left = 0;
  return climate.map((h) => {
    const wet = left > 1e-9;
    left = Math.max(0, left - Math.min(1, h.evaporation / LABEL_EVAPORATION));
    if ((h.hour.rainMm ?? 0) >= rain) left = afterRain;
    else if (h.slabC <= h.dewC) left = Math.max(left, afterDew);
    return wet;
  });
}

/** Every hour for one product. Coats go down by daylight. */
export function hourVerdicts(job: Job, climate: readonly SlabHour[], product: Product): HourVerdict[] {
  const wet = wetHours(job, climate);
  const found = climate.map((at): HourVerdict => {
    if (at.sunDeg < 0) return { go: 'no', code: 'dark', reason: tr`It is dark.` };
    const reason = against(job, climate, at, product, wet[at.index]!);
    return reason
      ? { go: 'no', ...reason }
      : {
          go: 'go',
          code: 'good',
          reason:
            at.hour.rainMm === null
              ? tr`Nothing known stands against it; this weather says nothing of rain.`
              : tr`Nothing stands against it.`,
        };
  });
  return found.map((v, i) => {
    if (v.go === 'go' || v.code === 'dark') return v;
    const day = climate[i]!.hour.at.slice(0, 10);
    const later = found.some((w, j) => j > i && w.go === 'go' && climate[j]!.hour.at.startsWith(day));
    return later ? { ...v, go: 'wait' } : v;
  });
}
