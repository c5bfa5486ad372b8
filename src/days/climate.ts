import { getPosition } from 'suncalc';
import type { Job, Weather, WeatherHour } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import { entered, type Source } from '../working/source.ts';
import * as formulas from './formulas.ts';
import { dayValue } from './values.ts';

/** One hour on the slab: what was forecast, and what follows from it. */
export interface SlabHour {
  readonly hour: WeatherHour;
  /** Hours since the first. */
  readonly index: number;
  /** Height of the sun in degrees at the middle of the hour; below 0 it is night. */
  readonly sunDeg: number;
  /** Wind over the slab. */
  readonly windKmH: number;
  readonly solAir: Quantity;
  readonly slabC: number;
  /** Whether somebody read the slab in this hour. */
  readonly read: boolean;
  readonly dewC: number;
  /** kg/m² an hour. */
  readonly evaporation: number;
}

const forecast: Source = { kind: 'measured', how: tr`the weather file` };

/** Minutes since 1970 of a local time, as if its clock were UTC. */
export const minutesOf = (at: string): number => Date.parse(`${at.slice(0, 16)}:00Z`) / 60_000;

/** Dew point, °C, of air at a temperature and humidity. */
export const dewPointOf = (t: number, RH: number): number =>
  formulas.dewPoint.evaluate({ g: formulas.dewLogarithm.evaluate({ t, RH: Math.max(RH, 1) }) });

/**
 * The slab hour by hour: sun and sky make a sol-air temperature, which the slab follows with its lag; a reading of the
 * slab takes the place of what was worked out, and the slab goes on from there.
 */
export function slabHours(job: Job, weather: Weather): SlabHour[] {
  const lag = dayValue(job, 'slab.lag').value;
  const share = dayValue(job, 'weather.wind-share').value;
  const readings = new Map<string, number>(
    Object.values(job.readings ?? {}).map((r) => [`${r.at.slice(0, 13)}:00`, r.slabC] as const),
  );
  const follow = 1 - Math.exp(-1 / lag);
  let slab = Number.NaN;
  return weather.hours.map((hour, index): SlabHour => {
    const sunDeg = sunHeight(weather, hour.at);
    const solAir = solAirOf(job, hour, sunDeg);
    const read = readings.get(hour.at);
    // Nothing is known before the first hour: the slab starts out at what sun and sky would make of it.
    slab = read ?? (Number.isNaN(slab) ? solAir.value : slab + (solAir.value - slab) * follow);
    const windKmH = hour.windKmH * share;
    return {
      hour,
      index,
      sunDeg,
      windKmH,
      solAir,
      slabC: slab,
      read: read !== undefined,
      dewC: dewPointOf(hour.airC, hour.humidityPct),
      evaporation: Math.max(
        0,
        formulas.evaporation.evaluate({
          Tc: Math.max(slab, -17),
          Ta: Math.max(hour.airC, -17),
          RH: hour.humidityPct,
          V: windKmH,
        }),
      ),
    };
  });
}

/** Height of the sun at the middle of an hour, degrees. */
export function sunHeight({ latitude, longitude, zoneH }: Weather, at: string): number {
  const utc = new Date((minutesOf(at) + 30 - zoneH * 60) * 60_000);
  return getPosition(utc, latitude, longitude).altitude;
}

/** What sun, sky and air together would heat the slab to. Clouds that nobody gave are taken as none. */
function solAirOf(job: Job, hour: WeatherHour, sunDeg: number): Quantity {
  const clouds = (hour.cloudPct ?? 0) / 100;
  const n = leaf(tr`clouds`, 'n', clouds, '1', forecast);
  const G =
    hour.sunWPerM2 !== null
      ? leaf(tr`sun on level ground`, 'G', hour.sunWPerM2, 'W/m²', forecast)
      : derive(tr`sun on level ground`, formulas.cloudySun, {
          G0: derive(tr`sun under a clear sky`, formulas.clearSun, {
            s: leaf(tr`sine of the sun’s height`, 's', Math.max(0, Math.sin((sunDeg * Math.PI) / 180)), '1', {
              kind: 'derived',
              from: tr`solar position (J. Meeus, Astronomical Algorithms)`,
            }),
          }),
          n,
        });
  const sky = dayValue(job, 'slab.sky');
  return derive(tr`sol-air temperature`, formulas.solAir, {
    Ta: leaf(tr`air`, 'Ta', hour.airC, '°C', forecast),
    a: dayValue(job, 'slab.absorptance'),
    G,
    h: dayValue(job, 'slab.outdoor'),
    // A covered sky takes nothing; between, by its clear part.
    k: { ...sky, value: sky.value * (1 - clouds), source: sky.value === 0 ? entered : sky.source },
  });
}
