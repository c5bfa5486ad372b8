import { describe, expect, test } from 'vitest';
import { readWeather } from '../../src/imports/weather/index.ts';
import type { WeatherHour } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';

const place = { latitude: -37, longitude: 145, zoneH: 10 };
const hours = (text: string, file = 'w.csv', at: typeof place | null = place) => {
  const read = readWeather(text, file, at);
  return read.ok ? read.value.hours : sentence(read.problem);
};

describe('weather tables', () => {
  test('separators, decimal commas, units and headings as people have them', () => {
    const first = (text: string) => (hours(text) as readonly WeatherHour[])[0];
    expect(
      first('time,temperature (°C),relative humidity (%),wind speed (km/h)\n2026-03-14T07:00,12.5,70,9'),
    ).toMatchObject({ at: '2026-03-14T07:00', airC: 12.5, humidityPct: 70, windKmH: 9, rainMm: null });
    expect(
      first('Datum;Time;Temp (°C);Humidity;Wind (m/s);Rain (mm)\n14.03.26;07:00;12,5;70;2,5;0,4'),
    ).toMatchObject({
      at: '2026-03-14T07:00',
      airC: 12.5,
      windKmH: 9,
      rainMm: 0.4,
    });
    expect(first('date\ttemp (F)\trh\twind (mph)\n2026-03-14 07:00\t50\t70\t10')).toMatchObject({
      airC: 10,
      windKmH: 16.093,
    });
  });

  test('lines within an hour are averaged and their rain summed; short gaps are bridged, long ones said', () => {
    const head = 'time,temp,rh,rain\n';
    expect(hours(`${head}2026-03-14 07:00,10,60,0.2\n2026-03-14 07:30,14,80,0.3`)).toMatchObject([
      { airC: 12, humidityPct: 70, rainMm: 0.5 },
    ]);
    expect(hours(`${head}2026-03-14 07:00,10,60,0\n2026-03-14 10:00,16,60,0`)).toMatchObject([
      { airC: 10 },
      { airC: 12 },
      { airC: 14 },
      { airC: 16 },
    ]);
    expect(hours(`${head}2026-03-14 07:00,10,60,0\n2026-03-14 12:00,16,60,0`)).toContain(
      'more than three hours are missing',
    );
  });

  test('a time that says its zone is turned to the clock that was entered', () => {
    expect(hours('time,temp,rh\n2026-03-13T21:00Z,10,60')).toMatchObject([{ at: '2026-03-14T07:00' }]);
    expect(hours('time,temp,rh\n2026-03-14T08:00+11:00,10,60')).toMatchObject([{ at: '2026-03-14T07:00' }]);
  });

  test('inches of rain and shares of humidity are seen for what they are', () => {
    expect(hours('time,temp,rh,rain_in\n2026-03-14 07:00,10,0.97,0.1')).toMatchObject([
      { humidityPct: 97, rainMm: 2.54 },
    ]);
  });

  test('days that do not exist are left out, cells without end are no numbers, and sixty thousand lines of one hour are read', () => {
    expect(hours('time,temp,rh\n2026-02-31 07:00,10,60')).toContain('There is no hour with both');
    expect(hours(`time,temp,rh\n2026-03-14 07:00,${'1'.repeat(50_000)}x,60`)).toContain('There is no hour');
    const many = Array.from({ length: 60_000 }, () => '2026-03-14 07:00,10,60').join('\n');
    expect(hours(`time,temp,rh\n${many}`)).toHaveLength(1);
  });

  test('newest first is put in order', () => {
    const text = 'time,temp,rh\n2026-03-14 09:00,12,60\n2026-03-14 08:00,11,61\n2026-03-14 07:00,10,62';
    expect((hours(text) as readonly WeatherHour[]).map((h) => h.at.slice(11))).toEqual([
      '07:00',
      '08:00',
      '09:00',
    ]);
  });

  test('what is wrong is said in a sentence', () => {
    expect(hours('a,b\n1,2')).toContain('is no weather that I can read');
    expect(hours('time,temp,rh\nnever,1,2')).toContain('There is no hour with both');
    expect(hours('time,temp,rh\n2026-03-14 07:00,10,60', 'w.csv', null)).toContain('does not say where');
    expect(hours('time,temp,rh\n2026-03-14 07:00,999,60')).toContain('no weather of this world');
    expect(hours('{"hourly": ')).toContain('breaks off');
    expect(hours('{"a": 1}')).toContain('breaks off');
    expect(hours('LOCATION,x\n')).toContain('breaks off');
    expect(hours('')).toContain('is no weather');
  });
});

describe('forecasts as JSON', () => {
  test('columns under hourly, with their units and their own place', () => {
    const read = readWeather(
      JSON.stringify({
        latitude: 52,
        longitude: 5,
        utc_offset_seconds: 3600,
        hourly_units: { wind_speed_10m: 'm/s' },
        hourly: {
          time: ['2026-03-14T07:00', '2026-03-14T08:00', '2026-03-14T09:00'],
          temperature_2m: [10, 11, 12],
          relative_humidity_2m: [70, 71, 72],
          wind_speed_10m: [2, 3, 3],
          cloud_cover: [40, null, 50],
          precipitation: [0, 0.3, 0],
          shortwave_radiation: [100, 200, 300],
        },
      }),
      'f.json',
      null,
    );
    expect(read).toMatchObject({
      ok: true,
      value: {
        latitude: 52,
        zoneH: 1,
        hours: [
          // Rain and sun are given for the hour before.
          { airC: 10, windKmH: 7.2, cloudPct: 40, rainMm: 0.3, sunWPerM2: 200 },
          { cloudPct: null, rainMm: 0, sunWPerM2: 300 },
          { airC: 12, rainMm: null },
        ],
      },
    });
  });

  test('rows under weather, and a time series at a point in UTC', () => {
    const rows = readWeather(
      JSON.stringify({
        weather: [
          {
            timestamp: '2026-03-14T07:00:00+01:00',
            temperature: 9,
            relative_humidity: 80,
            wind_speed: 12,
            solar: 0.25,
          },
        ],
        sources: [{ lat: 50, lon: 8 }],
      }),
      'r.json',
      null,
    );
    expect(rows).toMatchObject({
      ok: true,
      value: { zoneH: 1, hours: [{ at: '2026-03-14T07:00', airC: 9 }] },
    });
    const series = readWeather(
      JSON.stringify({
        type: 'Feature',
        geometry: { type: 'Point', coordinates: [145, -37, 10] },
        properties: {
          timeseries: [
            {
              time: '2026-03-13T21:00:00Z',
              data: {
                instant: {
                  details: {
                    air_temperature: 12,
                    relative_humidity: 60,
                    wind_speed: 5,
                    cloud_area_fraction: 20,
                  },
                },
                next_1_hours: { details: { precipitation_amount: 0.1 } },
              },
            },
          ],
        },
      }),
      's.json',
      null,
    );
    expect(series).toMatchObject({
      ok: true,
      value: { zoneH: 10, hours: [{ at: '2026-03-14T07:00', airC: 12, windKmH: 18, rainMm: 0.1 }] },
    });
  });
});
