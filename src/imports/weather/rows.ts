import { fail, ok, type Result } from '../../../geometry/result.ts';
import { weather as weatherSchema } from '../../job/schema.ts';
import type { Place, Weather, WeatherHour } from '../../job/types.ts';
import type { Problem } from '../../problem.ts';

/** One line of a weather file in our units; what it does not say is null. */
export interface WeatherRow {
  /** Minutes since 1970 by the local clock. */
  readonly minutes: number;
  readonly airC: number | null;
  readonly humidityPct: number | null;
  readonly windKmH: number | null;
  readonly cloudPct: number | null;
  readonly rainMm: number | null;
  readonly sunWPerM2: number | null;
}

/** A kind of weather file: reads its text; a place that the file knows goes before the one entered. Null where it is
 * another kind of file. */
export type WeatherReader = (
  text: string,
  file: string,
  place: Place | null,
) => Result<{ readonly rows: readonly WeatherRow[]; readonly place: Place | null }, Problem> | null;

const FIELDS = ['airC', 'humidityPct', 'windKmH', 'cloudPct', 'rainMm', 'sunWPerM2'] as const;
type Field = (typeof FIELDS)[number];

/** Longer than this a gap is not bridged. */
const LONGEST_GAP_H = 3;

/** Hours one after another: lines within an hour averaged (rain summed), gaps of up to three hours bridged. */
export function hourly(
  rows: readonly WeatherRow[],
  place: Place | null,
  file: string,
): Result<Weather, Problem> {
  if (!place) return fail({ code: 'weather/no-place', file });
  const byHour = new Map<number, WeatherRow[]>();
  for (const row of rows) {
    if (!Number.isFinite(row.minutes)) continue;
    const hour = Math.floor(row.minutes / 60);
    const lines = byHour.get(hour);
    if (lines) lines.push(row);
    else byHour.set(hour, [row]);
  }
  // Humidity as a share of one, in all lines, is meant in per cent.
  const most = rows.reduce((m, r) => Math.max(m, r.humidityPct ?? 0), 0);
  const turned = most > 0 && most <= 1 ? 100 : 1;
  const known = [...byHour]
    .map(([hour, lines]) => ({ hour, ...merged(lines) }))
    .filter((h) => h.airC !== null && h.humidityPct !== null)
    .sort((a, b) => a.hour - b.hour);
  if (known.length === 0) return fail({ code: 'weather/no-hours', file });
  const hours: WeatherHour[] = [];
  for (const h of known) h.humidityPct = h.humidityPct! * turned;
  for (const [i, next] of known.entries()) {
    const last = known[i - 1];
    const gap = last ? next.hour - last.hour : 1;
    if (last && gap > LONGEST_GAP_H) {
      // Forecasts grow coarse towards their end: what comes before is taken, a day of it at least.
      if (hours.length >= 24) break;
      return fail({ code: 'weather/gap', file, at: clock(last.hour + 1) });
    }
    for (let k = 1; k < gap; k++) hours.push(finished(last!.hour + k, between(last!, next, k / gap)));
    hours.push(finished(next.hour, next));
  }
  const made = { name: file, ...place, hours };
  const checked = weatherSchema.safeParse(made);
  if (!checked.success) {
    const issue = checked.error.issues[0]!;
    const at = issue.path[0] === 'hours' ? hours[issue.path[1] as number]?.at : undefined;
    return fail({
      code: 'weather/odd',
      file,
      at: at ?? '',
      field: String(issue.path[issue.path.length - 1]),
    });
  }
  return ok(made);
}

const clock = (hour: number): string => new Date(hour * 3_600_000).toISOString().slice(0, 16);

function merged(lines: readonly WeatherRow[]): Record<Field, number | null> {
  const out = {} as Record<Field, number | null>;
  for (const field of FIELDS) {
    const found = lines.flatMap((l) => l[field] ?? []);
    const sum = found.reduce((s, x) => s + x, 0);
    out[field] = found.length === 0 ? null : field === 'rainMm' ? sum : sum / found.length;
  }
  return out;
}

/** A share of the way from one hour to another; rain is not spread over hours nobody measured. */
function between(
  a: Record<Field, number | null>,
  b: Record<Field, number | null>,
  share: number,
): Record<Field, number | null> {
  const out = {} as Record<Field, number | null>;
  for (const field of FIELDS) {
    const [from, to] = [a[field], b[field]];
    out[field] = from === null || to === null ? null : field === 'rainMm' ? to : from + (to - from) * share;
  }
  return out;
}

const finished = (hour: number, h: Record<Field, number | null>): WeatherHour => ({
  at: clock(hour),
  airC: round(h.airC!),
  humidityPct: round(Math.min(100, h.humidityPct!)),
  windKmH: round(h.windKmH ?? 0),
  cloudPct: h.cloudPct === null ? null : round(h.cloudPct),
  rainMm: h.rainMm === null ? null : round(h.rainMm),
  sunWPerM2: h.sunWPerM2 === null ? null : round(h.sunWPerM2),
});

/** To a thousandth: averages of thermometers are no better. */
const round = (x: number): number => Math.round(x * 1000) / 1000;

/** A time as files write it, as minutes by the local clock, and how far its zone is ahead where it says so. */
export function timeOf(text: string): { readonly minutes: number; readonly zoneH: number | null } | null {
  const t = text.trim();
  if (t.length > 40) return null;
  const iso =
    /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ](\d{1,2})(?::(\d{2}))?(?::\d{2}(?:\.\d+)?)?)?\s*(Z|[+-]\d{2}:?\d{2})?$/.exec(
      t,
    );
  const dotted = /^(\d{1,2})\.(\d{1,2})\.(\d{2}|\d{4})(?:[ T](\d{1,2}):(\d{2}))?$/.exec(t);
  const parts = iso
    ? [iso[1], iso[2], iso[3], iso[4], iso[5]]
    : dotted
      ? [dotted[3]!.length === 2 ? `20${dotted[3]}` : dotted[3], dotted[2], dotted[1], dotted[4], dotted[5]]
      : null;
  if (!parts) return null;
  const [y, mo, d, h, mi] = parts.map((p) => Number(p ?? 0)) as [number, number, number, number, number];
  const minutes = Date.UTC(y, mo - 1, d, h, mi) / 60_000;
  // The 31st of February is no day.
  if (new Date(Date.UTC(y, mo - 1, d)).getUTCDate() !== d) return null;
  if (!Number.isFinite(minutes) || mo < 1 || mo > 12 || d < 1 || d > 31 || h > 24 || mi > 59) return null;
  const zone = iso?.[6];
  if (!zone) return { minutes, zoneH: null };
  if (zone === 'Z') return { minutes, zoneH: 0 };
  const sign = zone.startsWith('-') ? -1 : 1;
  return { minutes, zoneH: sign * (Number(zone.slice(1, 3)) + Number(zone.slice(-2)) / 60) };
}

/** A time of a file by the clock that a person entered; by the file's own where none was. */
export function localMinutes(text: string, entered: Place | null): number {
  const time = timeOf(text);
  if (!time) return Number.NaN;
  return time.zoneH === null || !entered ? time.minutes : time.minutes + (entered.zoneH - time.zoneH) * 60;
}

/**
 * Rain and sun that a file gives for the hour before its time, in the hour that begins then, as everything else is.
 */
export const fromHourBefore = (rows: readonly WeatherRow[]): WeatherRow[] => [
  ...rows.map((r) => ({ ...r, rainMm: null, sunWPerM2: null })),
  ...rows.map((r) => ({
    ...r,
    minutes: r.minutes - 60,
    airC: null,
    humidityPct: null,
    windKmH: null,
    cloudPct: null,
  })),
];

/** A number as files write it, with a point or a comma; null where it is none. */
export function numberOf(text: unknown): number | null {
  if (typeof text === 'number') return Number.isFinite(text) ? text : null;
  if (typeof text !== 'string' || text.length > 40) return null;
  const t = text.trim().replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(t) ? Number(t) : null;
}
