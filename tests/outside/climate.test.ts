import { readFileSync } from 'node:fs';
import { getSpa } from 'nrel-spa';
import psychrolib from 'psychrolib';
import { describe, expect, test } from 'vitest';
import { dewPointOf, slabHours, sunHeight } from '../../src/days/climate.ts';
import * as formulas from '../../src/days/formulas.ts';
import { readWeather } from '../../src/imports/weather/index.ts';
import { emptyJob, type Weather } from '../../src/job/types.ts';
import { beside } from '../shared-material.ts';

const place = (latitude: number, longitude: number, zoneH: number): Weather => ({
  name: '',
  latitude,
  longitude,
  zoneH,
  hours: [],
});

describe('height of the sun', () => {
  test('the example of the solar position algorithm: 17 October 2003 in Golden, zenith 50.11°', () => {
    // NREL/TP-560-34302, table A5.1: 12:30:30, 39.742476°, −105.1786°, 7 h behind UTC; FROM MEMORY. Ours looks at 12:30.
    const height = sunHeight(place(39.742476, -105.1786, -7), '2003-10-17T12:00');
    expect(Math.abs(90 - height - 50.11)).toBeLessThan(0.05);
  });

  test('at noon of an equinox it stands as far below the zenith as the place from the equator', () => {
    // Geometry: declination 0. Local noon at longitude 0 within the equation of time (7 min in March).
    for (const latitude of [0, 30, 51, -37]) {
      const height = Math.max(...[11, 12].map((h) => sunHeight(place(latitude, 0, 0), `2026-03-20T${h}:00`)));
      expect(Math.abs(height - (90 - Math.abs(latitude)))).toBeLessThan(
        2.5 + 7.5 * 1.1 * Number(latitude === 0),
      );
    }
  });

  test('agrees with an independent implementation of the solar position algorithm within a tenth of a degree', () => {
    for (const [latitude, longitude, zone] of [
      [52.3, 4.8, 1],
      [-37.6, 144.6, 10],
      [39.7, -105.2, -7],
      [1.3, 103.8, 8],
    ] as const) {
      for (const month of [1, 4, 7, 10]) {
        for (let hour = 7; hour <= 17; hour++) {
          const at = `2026-${String(month).padStart(2, '0')}-15T${String(hour).padStart(2, '0')}:00`;
          const ours = sunHeight(place(latitude, longitude, zone), at);
          // It takes the date's fields for the local clock.
          const date = new Date(Date.parse(`${at}:00Z`) + 30 * 60_000);
          const theirs = 90 - getSpa(date, latitude, longitude, zone).zenith;
          if (theirs > 3) expect(Math.abs(ours - theirs), `${latitude} ${at}`).toBeLessThan(0.1);
        }
      }
    }
  });
});

describe('dew point', () => {
  test('agrees with ASHRAE’s formulas on a grid of painting weather within 0.04 °C', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let t = 2; t <= 45; t++) {
      for (let rh = 20; rh <= 100; rh += 4) {
        const theirs = psychrolib.GetTDewPointFromRelHum(t, rh / 100);
        // Below freezing the library turns to ice; no coat goes down there.
        if (theirs > 0.5) expect(Math.abs(dewPointOf(t, rh) - theirs), `${t} °C ${rh} %`).toBeLessThan(0.04);
      }
    }
  });

  test.each([
    ['weather/bright__observations_current.csv', 0.3],
    ['weather/pvlib__NLD_Amsterdam062400_IWEC.epw', 1],
    ['weather/pvlib__test_psm4_2023_5min.csv', 0.3],
  ])('%s: what it states itself, within what its whole per cents allow', (path, tolerance) => {
    const file = beside(path);
    if (!file) return;
    const text = readFileSync(file, 'utf8');
    const read = readWeather(text, path, { latitude: 50, longitude: 10, zoneH: 0 });
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    const stated = statedDewPoints(text, path);
    let compared = 0;
    for (const hour of read.value.hours) {
      const dew = stated.get(hour.at);
      if (dew === undefined) continue;
      compared++;
      expect(Math.abs(dewPointOf(hour.airC, hour.humidityPct) - dew), hour.at).toBeLessThan(tolerance);
    }
    expect(compared).toBeGreaterThanOrEqual(24);
  });
});

/** The dew points a file states, hour by hour, read without the program. */
function statedDewPoints(text: string, path: string): Map<string, number> {
  const out = new Map<string, number>();
  const lines = text.split(/\r?\n/);
  if (path.endsWith('.epw')) {
    const year = lines[8]!.split(',')[0]!;
    for (const line of lines.slice(8)) {
      const c = line.split(',');
      if (c.length < 20) continue;
      const pad = (x: string) => x.padStart(2, '0');
      out.set(`${year}-${pad(c[1]!)}-${pad(c[2]!)}T${pad(String(Number(c[3]) - 1))}:00`, Number(c[7]));
    }
  } else if (path.includes('bright')) {
    for (const line of lines.slice(3)) {
      const c = line.split(';');
      const [d, m, y] = (c[0] ?? '').split('.');
      if (y) out.set(`20${y}-${m}-${d}T${c[1]}`, Number(c[5]!.replace(',', '.')));
    }
  } else {
    const head = lines[0]!.split(',').indexOf('Dew Point');
    const sums = new Map<string, number[]>();
    for (const line of lines.slice(1)) {
      const c = line.split(',');
      if (c.length < 10) continue;
      const at = `${c[0]!.slice(0, 10)}T${c[0]!.slice(11, 13)}:00`;
      sums.set(at, [...(sums.get(at) ?? []), Number(c[head])]);
    }
    for (const [at, list] of sums) out.set(at, list.reduce((s, x) => s + x, 0) / list.length);
  }
  return out;
}

describe('slab', () => {
  test('sol-air: level ground 4 °C under its air by night, and α G / h above by day', () => {
    // ASHRAE Handbook of Fundamentals: 4 K for level surfaces, 17 W/m²K; as quoted on third-party pages, READ. Products DERIVED.
    const at = (G: number, k: number) => formulas.solAir.evaluate({ Ta: 30, a: 0.45, G, h: 17, k });
    expect(at(0, 4)).toBeCloseTo(26, 9);
    expect(at(850, 4)).toBeCloseTo(30 + (0.45 * 850) / 17 - 4, 9);
    // A third-party example: 4 °C, 0.59 of 122 W/m², 20 W/m² to the sky, in a wind of 17 W/m²K.
    expect(formulas.solAir.evaluate({ Ta: 4, a: 0.59, G: 122, h: 17, k: 20 / 17 })).toBeCloseTo(7.0576, 3);
  });

  const hour = (at: string, more: object = {}) => ({
    at,
    airC: 15,
    humidityPct: 60,
    windKmH: 5,
    cloudPct: 0,
    rainMm: 0,
    sunWPerM2: null,
    ...more,
  });
  const day = (more: object = {}): Weather => ({
    ...place(-37, 145, 10),
    hours: Array.from({ length: 24 }, (_, h) => hour(`2026-03-14T${String(h).padStart(2, '0')}:00`, more)),
  });
  const job = emptyJob('j', 'Job');

  test('a clear night cools it 2 to 5 °C below the air, a clear noon heats it 10 to 25 °C above: common practice, no source', () => {
    const slab = slabHours(job, day());
    expect(slab[5]!.slabC).toBeLessThan(15 - 2);
    expect(slab[5]!.slabC).toBeGreaterThan(15 - 5);
    const hottest = Math.max(...slab.map((h) => h.slabC));
    expect(hottest).toBeGreaterThan(15 + 10);
    expect(hottest).toBeLessThan(15 + 30);
  });

  test('under a closed sky by night it comes to the air’s temperature', () => {
    const slab = slabHours(job, day({ cloudPct: 100, sunWPerM2: 0 }));
    expect(slab[23]!.slabC).toBeCloseTo(15, 3);
  });

  test('a reading takes the place of what was worked out, and the slab goes on from there', () => {
    const read = {
      ...job,
      readings: { r: { id: 'r', at: '2026-03-14T12:20', airC: 15, humidityPct: 60, slabC: 22, windKmH: 5 } },
    };
    const slab = slabHours(read, day());
    expect(slab[12]!).toMatchObject({ slabC: 22, read: true });
    const without = slabHours(job, day());
    const before = Math.abs(without[12]!.slabC - 22);
    expect(Math.abs(slab[13]!.slabC - without[13]!.slabC)).toBeCloseTo(before * Math.exp(-1 / 1.5), 6);
  });
});
