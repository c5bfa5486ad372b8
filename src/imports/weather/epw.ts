import { fail, ok } from '../../../geometry/result.ts';
import { numberOf, type WeatherReader, type WeatherRow } from './rows.ts';

/** A typical year in the EPW format: place in its first line, 35 columns an hour, months from different years. */
export const readEpw: WeatherReader = (text, file) => {
  const lines = text.split(/\r?\n/);
  const head = lines[0]?.split(',') ?? [];
  if (head[0] !== 'LOCATION') return null;
  const [latitude, longitude, zoneH] = [6, 7, 8].map((i) => numberOf(head[i]));
  const start = lines.findIndex((line) => line.startsWith('DATA PERIODS'));
  if (latitude == null || longitude == null || zoneH == null || start < 0) {
    return fail({ code: 'weather/broken', file });
  }
  let year: number | null = null;
  const rows = lines.slice(start + 1).flatMap((line): WeatherRow[] => {
    const cells = line.split(',');
    const at = [0, 1, 2, 3].map((i) => numberOf(cells[i]));
    if (cells.length < 22 || at.some((x) => x === null)) return [];
    year ??= at[0]!;
    const cell = (i: number, missing: number): number | null => {
      const value = numberOf(cells[i]);
      return value === null || value >= missing ? null : value;
    };
    const scaled = (value: number | null, by: number) => (value === null ? null : value * by);
    return [
      {
        // Hour 1 is the hour that ends at one o'clock.
        minutes: Date.UTC(year, at[1]! - 1, at[2]!, at[3]! - 1) / 60_000,
        airC: cell(6, 99.9),
        humidityPct: cell(8, 999),
        windKmH: scaled(cell(21, 999), 3.6),
        cloudPct: scaled(cell(22, 99), 10),
        rainMm: cell(33, 999),
        sunWPerM2: cell(13, 9999),
      },
    ];
  });
  return ok({ rows, place: { latitude, longitude, zoneH } });
};
