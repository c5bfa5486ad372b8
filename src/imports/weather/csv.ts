import Papa from 'papaparse';
import { fail, ok } from '../../../geometry/result.ts';
import { numberOf, timeOf, type WeatherReader, type WeatherRow } from './rows.ts';

/** What a column is called, by language and habit, and what it must not be. */
const COLUMNS: ReadonlyArray<readonly [keyof WeatherRow, RegExp, RegExp | null]> = [
  ['airC', /^(air ?temp|dry.?bulb|temp)/i, /dew|min|max|surface|soil|5 ?cm|mean/i],
  ['humidityPct', /humid|^rh\b/i, /specific|absolute/i],
  ['windKmH', /^(mean_)?wind.?speed|^wind( *\(|$)/i, /max|gust|dir/i],
  ['cloudPct', /cloud.?(cover|_cover|s)?|^clouds?/i, /base|type|flag|height|low|mid|high/i],
  ['rainMm', /^(rain|precip)/i, /3|6|12|24|prob|water|previous/i],
  ['sunWPerM2', /^ghi|global.*radiation|shortwave|solar.?radiation/i, /24|past|clear/i],
];
const TIME = /^(date.?time|time(stamp)?|local.?time|valid|date|datum)\b/i;

/** A table of weather: any separator, decimal points or commas, units in the heading or below it. */
export const readWeatherCsv: WeatherReader = (text, file, place) => {
  const parsed = Papa.parse<string[]>(text.replace(/^﻿/, ''), { skipEmptyLines: 'greedy' });
  const table = parsed.data;
  const top = table
    .slice(0, 8)
    .findIndex((row) => columnOf(row, 'airC') >= 0 && columnOf(row, 'humidityPct') >= 0);
  if (top < 0) return null;
  const heading = table[top]!;
  const data = table.slice(top + 1);
  const first = data.findIndex((row) => rowTime(heading, row) !== null);
  if (first < 0) return fail({ code: 'weather/no-hours', file });
  const units = data.slice(0, first);
  const columns = COLUMNS.map(([field]) => {
    const at = columnOf(heading, field);
    return {
      field,
      at,
      turn: at < 0 ? null : turnOf(field, [heading[at]!, ...units.map((u) => u[at] ?? '')]),
    };
  });
  const rows = data.slice(first).flatMap((row): WeatherRow[] => {
    const time = rowTime(heading, row);
    if (!time) return [];
    // A time that says its zone is turned to the clock that was entered.
    const ahead = place && time.zoneH !== null ? (place.zoneH - time.zoneH) * 60 : 0;
    const out: Record<string, number | null> = { minutes: time.minutes + ahead };
    for (const { field, at, turn } of columns) {
      const value = at < 0 ? null : numberOf(row[at]);
      out[field] = value === null ? null : turn!(value);
    }
    return [out as unknown as WeatherRow];
  });
  return ok({ rows, place });
};

function columnOf(heading: readonly string[], field: keyof WeatherRow): number {
  const [, is, not] = COLUMNS.find(([f]) => f === field)!;
  return heading.findIndex((name) => {
    const plain = name.trim();
    return (
      is.test(plain) &&
      !(not?.test(plain.replace(/last_10_min|at_10_m\w*|at_2_m\w*|\(2 ?m\)|mean_wind/gi, '')) ?? false)
    );
  });
}

/** The time of a row: one column, date and clock in two, or year, month, day, hour and minute each in its own. */
function rowTime(heading: readonly string[], row: readonly string[]) {
  const named = (name: RegExp) => heading.findIndex((h) => name.test(h.trim()));
  const at = named(TIME);
  const clock = heading.findIndex(
    (h, i) => i !== at && /^(time|clock|uhrzeit|hour of day)\b/i.test(h.trim()),
  );
  const alone = timeOf(row[Math.max(at, 0)] ?? '');
  // Date in one column and the clock in the next, named or not.
  const beside = /^\s*\d{1,2}:\d{2}\s*$/.exec(row[clock >= 0 ? clock : Math.max(at, 0) + 1] ?? '');
  if (alone && beside) return timeOf(`${(row[Math.max(at, 0)] ?? '').trim()} ${beside[0].trim()}`);
  if (alone) return alone;
  const [y, mo, d, h, mi] = [/^year$/i, /^month$/i, /^day$/i, /^hour$/i, /^minute$/i].map(named);
  if (y! < 0 || mo! < 0 || d! < 0 || h! < 0) return null;
  const two = (i: number) => (row[i] ?? '').trim().padStart(2, '0');
  return timeOf(`${row[y!]}-${two(mo!)}-${two(d!)} ${two(h!)}:${mi! < 0 ? '00' : two(mi!)}`);
}

/** What takes a column's unit to ours. Wind without a unit is in metres a second, as stations give it. */
function turnOf(field: keyof WeatherRow, words: readonly string[]): (value: number) => number {
  const said = words.join(' ').replaceAll('_', ' ');
  if (field === 'airC' && /°?\bF\b|fahrenheit/i.test(said)) return (f) => (f - 32) / 1.8;
  if (field === 'airC' && /\bK\b|kelvin/i.test(said)) return (k) => k - 273.15;
  if (field === 'windKmH') {
    if (/km.?h|kph/i.test(said)) return (v) => v;
    if (/mph|mi.?h/i.test(said)) return (v) => v * 1.609344;
    if (/\bkn\b|knot|\bkt\b/i.test(said)) return (v) => v * 1.852;
    return (v) => v * 3.6;
  }
  if (field === 'rainMm' && /\binch|\bin\b/i.test(said)) return (v) => v * 25.4;
  if (field === 'cloudPct' && /okta|8/i.test(said)) return (v) => v * 12.5;
  return (v) => v;
}
