import { fail, type Result } from '../../../geometry/result.ts';
import type { Place, Weather } from '../../job/types.ts';
import type { Problem } from '../../problem.ts';
import { readWeatherCsv } from './csv.ts';
import { readEpw } from './epw.ts';
import { readForecast } from './forecast.ts';
import { hourly, type WeatherReader } from './rows.ts';

/** Every kind of weather file, told apart by what is in it. */
const READERS: readonly WeatherReader[] = [readEpw, readForecast, readWeatherCsv];

/**
 * Reads weather from a file's text.
 * @param place where it is, for files that do not say
 */
export function readWeather(text: string, file: string, place: Place | null): Result<Weather, Problem> {
  for (const read of READERS) {
    const found = read(text, file, place);
    if (!found) continue;
    return found.ok ? hourly(found.value.rows, found.value.place, file) : found;
  }
  return fail({ code: 'weather/unknown', file });
}
