import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { coatingJson } from '../../src/exports/coating-json.ts';
import { orderJson } from '../../src/exports/order-json.ts';
import { quoteJson } from '../../src/exports/quote-json.ts';
import { takeoffJson } from '../../src/exports/takeoff-json.ts';
import { applyEdit, type Edit } from '../../src/job/edits/index.ts';
import { writeJobFile } from '../../src/job/file.ts';
import { emptyJob, type Job, type JobImage } from '../../src/job/types.ts';
import { sentence } from '../../src/problem.ts';
import { results } from '../../src/results.ts';

/** Said in every demo job. */
export const INVENTED =
  'Invented data: Fernhollow Workshop does not exist, and nobody measured it. Made to show what slabwright does.';

/** Replays edits on an empty job; a refused edit stops the script. */
export function build(id: string, name: string, note: string, edits: readonly Edit[]): Job {
  let job = emptyJob(id, name);
  job = { ...job, note };
  for (const edit of edits) {
    const next = applyEdit(job, edit);
    if (!next.ok) throw new Error(`${edit.type}: ${sentence(next.problem)}`);
    job = next.value;
  }
  return job;
}

/** What was found on a slab that is sound: the answers to all questions that apply to such concrete. */
export const SOUND_BARE = {
  age: 2000,
  'water-drop': 'soaks-in',
  'tape-bare': 'clean',
  'moisture-sheet': 'dry',
  'ph-surface': 7.5,
  'ph-water': 7,
  oil: 'none',
  cracks: 'none',
  coldest: 12,
  hottest: 30,
} as const;

export const SOUND_PAINTED = {
  chalking: 'nothing',
  'old-paint': 'holds',
  'old-paint-kind': 'stays',
  'old-paint-date': 'later',
  'moisture-sheet': 'dry',
  oil: 'none',
  cracks: 'none',
  coldest: 12,
  hottest: 30,
} as const;

/** The edits that answer a slab's questions. */
export const answers = (slabId: string, found: Readonly<Record<string, string | number>>): Edit[] =>
  Object.entries(found).map(([question, answer]) => ({ type: 'answer', args: { slabId, question, answer } }));

/** Invented prices in cents, and packs as they may be sold. */
export const INVENTED_PRICES: readonly Edit[] = [
  ...(
    [
      ['labour.hour', 5200],
      ['travel.day', 4500],
      ['etch', 950],
      ['neutraliser', 380],
      ['grip', 4200],
      ['thinner.mineral turpentine', 640],
      ['sleeve', 1190],
      ['brush', 1450],
      ['tray', 680],
      ['tape', 890],
    ] as const
  ).map(([key, cents]): Edit => ({ type: 'set-price', args: { key, cents } })),
  ...(
    [
      ['water-borne-primer', 6400, 13900, 26800],
      ['water-borne-paint', 7900, 17400, 33500],
      ['solvent-borne-paint', 8400, 18600, 35900],
    ] as const
  ).map(
    ([productId, four, ten, twenty]): Edit => ({
      type: 'set-packs',
      args: {
        productId,
        packs: [
          { sizeL: 4, priceCents: four },
          { sizeL: 10, priceCents: ten },
          { sizeL: 20, priceCents: twenty },
        ],
      },
    }),
  ),
  {
    type: 'change-settings',
    args: { currency: 'AUD', tax: { ruleId: 'au-gst', ratePct: 10, per: 'total', on: 'all' } },
  },
];

/** Writes job.json, and with it what the program makes of it, for the golden test. */
export function save(folder: string, job: Job, images: Readonly<Record<string, JobImage>>): void {
  const dir = fileURLToPath(new URL(`../${folder}/`, import.meta.url));
  mkdirSync(dir, { recursive: true });
  writeFileSync(`${dir}job.json`, writeJobFile({ job, images }));
  const r = results(job);
  const expected = {
    takeoff: takeoffJson(r),
    coating: coatingJson(r),
    order: orderJson(r),
    quote: quoteJson(r),
  };
  writeFileSync(`${dir}expected.json`, `${JSON.stringify(expected, null, 1)}\n`);
}

/** Where a demo's picture goes. */
export const pictureFile = (folder: string, name: string): string =>
  fileURLToPath(new URL(`../${folder}/${name}`, import.meta.url));

/**
 * Two weeks of invented hours in March at an invented place: mild days; on the second warm damp air comes in over a slab
 * that no sun has warmed; a day of rain; a cold night.
 */
export function inventedWeather(): string {
  const lines = [
    'time,temperature (°C),relative humidity (%),wind speed (km/h),cloud cover (%),precipitation (mm),global radiation (W/m²)',
  ];
  const start = Date.UTC(2026, 2, 9);
  for (let h = 0; h < 14 * 24; h++) {
    const at = new Date(start + h * 3_600_000).toISOString().slice(0, 16);
    const [day, hour] = [Math.floor(h / 24), h % 24];
    const swing = Math.sin(((hour - 9) / 24) * 2 * Math.PI);
    const rain = day === 4 && hour >= 4 && hour <= 15;
    const cold = day === 6 ? -7 : 0;
    const usual = {
      air: 15 + 4 * swing + cold - (rain ? 4 : 0),
      humidity: rain ? 94 : Math.round(56 - 14 * swing),
      cloud: rain ? 100 : 65 + ((day * 37) % 30),
      sun: '',
    };
    const daylight = hour >= 6 && hour <= 18;
    const grey = { air: 11.5, humidity: 70, cloud: 100, sun: daylight ? '40' : '0' };
    const damp = { air: 16, humidity: 84, cloud: 100, sun: daylight ? '5' : '0' };
    const now = day !== 1 ? usual : hour < 13 ? grey : damp;
    const wind = 8 + ((h * 7) % 9);
    lines.push(
      [at, now.air.toFixed(1), now.humidity, wind, now.cloud, rain ? '1.2' : '0', now.sun].join(','),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** Where the invented place is, for its sun. */
export const INVENTED_PLACE = { latitude: -37.6, longitude: 144.6, zoneH: 10 };
