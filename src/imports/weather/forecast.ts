import { fail, ok } from '../../../geometry/result.ts';
import type { Place } from '../../job/types.ts';
import {
  fromHourBefore,
  localMinutes,
  numberOf,
  timeOf,
  type WeatherReader,
  type WeatherRow,
} from './rows.ts';

type Json = Readonly<Record<string, unknown>>;
const isObject = (x: unknown): x is Json => typeof x === 'object' && x !== null && !Array.isArray(x);

/** The JSON of a public forecast, as somebody saved it: columns, rows, or a time series at a point. */
export const readForecast: WeatherReader = (text, file, place) => {
  if (!/^\s*\{/.test(text)) return null;
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return fail({ code: 'weather/broken', file });
  }
  if (!isObject(json)) return fail({ code: 'weather/broken', file });
  const found = columns(json, place) ?? rows(json, place) ?? series(json, place);
  return found ? ok(found) : fail({ code: 'weather/broken', file });
};

interface Found {
  readonly rows: readonly WeatherRow[];
  readonly place: Place | null;
}

/** Hours under `hourly`, one array a quantity; units beside them. */
function columns(json: Json, entered: Place | null): Found | null {
  const { hourly, hourly_units: units } = json;
  if (!isObject(hourly) || !Array.isArray(hourly.time)) return null;
  const windUnit = isObject(units) ? String(units.wind_speed_10m ?? units.windspeed_10m ?? 'km/h') : 'km/h';
  const airUnit = isObject(units) ? String(units.temperature_2m ?? '°C') : '°C';
  const cell = (names: readonly string[], i: number): number | null => {
    for (const name of names) {
      const column = hourly[name];
      if (Array.isArray(column)) return numberOf(column[i]);
    }
    return null;
  };
  const rainUnit = isObject(units) ? String(units.precipitation ?? units.rain ?? 'mm') : 'mm';
  const latitude = numberOf(json.latitude);
  const longitude = numberOf(json.longitude);
  const offset = numberOf(json.utc_offset_seconds);
  const place =
    latitude !== null && longitude !== null ? { latitude, longitude, zoneH: (offset ?? 0) / 3600 } : entered;
  return {
    place,
    rows: fromHourBefore(
      hourly.time.map((time, i): WeatherRow => {
        const air = cell(['temperature_2m', 'temperature'], i);
        const wind = cell(['wind_speed_10m', 'windspeed_10m'], i);
        const rain = cell(['precipitation', 'rain'], i);
        return {
          minutes: timeOf(String(time))?.minutes ?? Number.NaN,
          airC: air !== null && /F/.test(airUnit) ? (air - 32) / 1.8 : air,
          humidityPct: cell(['relative_humidity_2m', 'relativehumidity_2m'], i),
          windKmH: wind === null ? null : wind * windFactor(windUnit),
          cloudPct: cell(['cloud_cover', 'cloudcover'], i),
          rainMm: rain === null ? null : rain * (/in/.test(rainUnit) ? 25.4 : 1),
          sunWPerM2: cell(['shortwave_radiation'], i),
        };
      }),
    ),
  };
}

const windFactor = (unit: string): number =>
  /m\/s|ms/.test(unit) ? 3.6 : /mp\/?h/.test(unit) ? 1.609344 : /kn/.test(unit) ? 1.852 : 1;

/** Hours under `weather`, one object an hour, with the station under `sources`. Solar is kWh/m² an hour. */
function rows(json: Json, entered: Place | null): Found | null {
  if (!Array.isArray(json.weather)) return null;
  const source = Array.isArray(json.sources) && isObject(json.sources[0]) ? json.sources[0] : {};
  const latitude = numberOf(source.lat);
  const longitude = numberOf(source.lon);
  let zoneH: number | null = null;
  const list = json.weather.filter(isObject).map((w): WeatherRow => {
    zoneH ??= entered?.zoneH ?? timeOf(String(w.timestamp))?.zoneH ?? null;
    const solar = numberOf(w.solar);
    return {
      minutes: localMinutes(String(w.timestamp), entered),
      airC: numberOf(w.temperature),
      humidityPct: numberOf(w.relative_humidity),
      windKmH: numberOf(w.wind_speed),
      cloudPct: numberOf(w.cloud_cover),
      rainMm: numberOf(w.precipitation),
      sunWPerM2: solar === null ? null : solar * 1000,
    };
  });
  const place =
    latitude !== null && longitude !== null ? { latitude, longitude, zoneH: zoneH ?? 0 } : entered;
  return { rows: fromHourBefore(list), place };
}

/** A GeoJSON point with `properties.timeseries`; times in UTC, wind in m/s. */
function series(json: Json, entered: Place | null): Found | null {
  const { properties, geometry } = json;
  if (!isObject(properties) || !Array.isArray(properties.timeseries)) return null;
  const at = isObject(geometry) && Array.isArray(geometry.coordinates) ? geometry.coordinates : [];
  const [longitude, latitude] = [numberOf(at[0]), numberOf(at[1])];
  const zoneH = entered?.zoneH ?? Math.round((longitude ?? 0) / 15);
  const place = latitude !== null && longitude !== null ? { latitude, longitude, zoneH } : entered;
  const list = properties.timeseries.filter(isObject).map((step): WeatherRow => {
    const data = isObject(step.data) ? step.data : {};
    const details = isObject(data.instant) && isObject(data.instant.details) ? data.instant.details : {};
    const next =
      isObject(data.next_1_hours) && isObject(data.next_1_hours.details) ? data.next_1_hours.details : {};
    const wind = numberOf(details.wind_speed);
    return {
      minutes: (timeOf(String(step.time))?.minutes ?? Number.NaN) + zoneH * 60,
      airC: numberOf(details.air_temperature),
      humidityPct: numberOf(details.relative_humidity),
      windKmH: wind === null ? null : wind * 3.6,
      cloudPct: numberOf(details.cloud_area_fraction),
      rainMm: numberOf(next.precipitation_amount),
      sunWPerM2: null,
    };
  });
  return { rows: list, place };
}
