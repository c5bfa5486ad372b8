import type { Content } from 'pdfmake/interfaces';
import { ringBox } from '../../../geometry/index.ts';
import { drawnBays } from '../../days/rollout/drawing.ts';
import type { Rollout } from '../../days/rollout/rollout.ts';
import { peopleWords, rushedWords, worstLaps } from '../../days/rollout/words.ts';
import type { Id } from '../../job/types.ts';
import { areaNumber, areaUnit, lengthNumber, lengthUnit, shownUnit } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { type PlanDrawing, planDrawings } from '../drawing/plan-drawing.ts';
import { dayMonthText, dayText, weekdayText } from './dates.ts';
import { drawnPage } from './drawing-paper.ts';
import type { PaperContent, Writing } from './paper.ts';
import { bullets, cautionsPart, heading, para, quiet, stopped, table, title } from './parts.ts';

/** What the crew does each day, in its weather, and the order that each slab is rolled in. */
export const dayPaper: PaperContent = (writing) => {
  const { rollouts, quote, order } = writing.results;
  if (quote.hours.tasks.length === 0) return [];
  const head = title(tr`Day sheets`);
  if (order.blocks.length > 0)
    return [head, ...stopped(tr`No work is to begin as things are:`, order.blocks)];
  return [
    head,
    ...plan(writing),
    ...cautionsPart(quote.cautions),
    ...rollouts.flatMap((r) => rolling(writing, r)),
  ];
};

function plan({ results: { days, quote, job } }: Writing): Content[] {
  if (!days || days.problem) {
    const rows = quote.hours.tasks.map((t) => [t.zoneName, t.name, t.hours.value.toFixed(1)]);
    return [
      para(days?.problem ?? tr`There is no weather in this job, so the work is listed without days.`),
      table(
        [
          { heading: tr`Zone`, width: '*' },
          { heading: tr`Work` },
          { heading: tr`Hours of one person`, number: true },
        ],
        rows,
      ),
    ];
  }
  const { units } = job.settings;
  const celsius = shownUnit('°C', units);
  const byDay = new Map<string, (typeof days.tasks)[number][]>();
  for (const t of days.tasks) {
    const day = t.startAt.slice(0, 10);
    byDay.set(day, [...(byDay.get(day) ?? []), t]);
  }
  const clock = (at: string, day: string) =>
    at.slice(0, 10) === day ? at.slice(11, 16) : tr`${at.slice(11, 16)} on ${dayMonthText(at)}`;
  const openAt = (at: string | null) =>
    at ? tr`from ${at.slice(11, 16)} on ${dayText(at)}` : tr`after the weather known ends`;
  const open = days.reopenings.map(
    (r) =>
      tr`${r.slabName}: feet ${openAt(r.feetAt)}, vehicles ${openAt(r.vehiclesAt)}; an estimate, the label’s times go before it.`,
  );
  return [
    ...[...byDay].flatMap(([day, tasks]): Content[] => {
      const hours = days.climate.filter(
        (h) =>
          h.hour.at.startsWith(day) &&
          Number(h.hour.at.slice(11, 13)) >= 6 &&
          Number(h.hour.at.slice(11, 13)) <= 20,
      );
      const span = (values: readonly number[]) =>
        values.length === 0
          ? '—'
          : tr`${celsius.show(Math.min(...values)).toFixed(0)} to ${celsius.show(Math.max(...values)).toFixed(0)} ${celsius.unit}`;
      const known = hours.every((h) => h.hour.rainMm !== null);
      const fallen = hours.reduce((sum, h) => sum + (h.hour.rainMm ?? 0), 0);
      const rain = !known
        ? tr`not known`
        : units === 'us'
          ? `${(fallen / 25.4).toFixed(2)} in`
          : `${fallen.toFixed(1)} mm`;
      return [
        {
          stack: [
            heading(weekdayText(day)),
            quiet(
              tr`Air ${span(hours.map((h) => h.hour.airC))}, slab ${span(hours.map((h) => h.slabC))}, rain ${rain}, between 6:00 and 21:00, by ${days.weather.name}.`,
            ),
            table(
              [
                { heading: tr`From`, width: 44 },
                { heading: tr`To`, width: 66 },
                { heading: tr`Slab`, width: '*' },
                { heading: tr`Work`, width: '*' },
                { heading: tr`Crew h`, number: true },
                { heading: tr`Done`, width: 50 },
              ],
              tasks.map((t) => [
                clock(t.startAt, day),
                clock(t.endAt, day),
                t.slabName,
                t.name,
                t.hours.toFixed(1),
                '☐',
              ]),
            ),
          ],
          unbreakable: tasks.length < 20,
        },
      ];
    }),
    ...(open.length > 0 ? [heading(tr`Open again`), bullets(open)] : []),
    quiet(
      tr`Read the slab’s and the air’s temperature and the humidity on site before each coat: a forecast is not the weather.`,
    ),
  ];
}

function rolling(writing: Writing, rollout: Rollout): Content[] {
  const { units } = writing.results.job.settings;
  if (rollout.problem) return [heading(tr`Order of rolling: ${rollout.name}`), para(rollout.problem)];
  if (rollout.bays.length === 0) return [];
  const drawing = ofSlab(writing, rollout.slabId);
  const rows = rollout.bays.map((b) => [
    String(b.number),
    areaNumber(b.areaM2, units),
    lengthNumber(b.cutInM, units),
    b.cutMin.toFixed(0),
    b.rollMin.toFixed(0),
    b.startMin.toFixed(0),
    peopleWords(b),
  ]);
  return [
    ...(drawing
      ? [
          drawnPage(
            writing,
            [drawing],
            tr`Order of rolling: ${rollout.name}`,
            tr`Order of rolling: ${rollout.name}`,
            { bays: drawnBays(rollout), ways: rollout.ways },
          ),
        ]
      : []),
    {
      text: tr`Order of rolling: ${rollout.name}`,
      fontSize: 13,
      bold: true,
      pageBreak: 'before',
      pageOrientation: 'portrait',
      margin: [0, 0, 0, 4],
    },
    para(
      tr`Begin at bay 1; whoever rolls can always step off over ${rollout.exits.join(', ')}, drawn thick${rollout.exitsSaid ? '' : tr` (nobody marked a way out: taken from what stands there)`}. The edge stays wet about ${rollout.wetEdgeMin.toFixed(0)} min.`,
    ),
    table(
      [
        { heading: tr`Bay` },
        { heading: areaUnit(units), number: true },
        { heading: tr`Cut in ${lengthUnit(units)}`, number: true },
        { heading: tr`Cutting in min`, number: true },
        { heading: tr`Rolling min`, number: true },
        { heading: tr`From minute`, number: true },
        { heading: tr`People`, width: '*' },
      ],
      rows,
    ),
    ...coldLaps(rollout),
  ];
}

function coldLaps({ coldLaps: laps, rushed }: Rollout): Content[] {
  const { worst, more } = worstLaps(laps);
  return [
    ...(rushed ? [para(rushedWords())] : []),
    ...(worst.length > 0
      ? [
          bullets([
            ...worst.map(
              (l) =>
                tr`The edge between bays ${l.first} and ${l.second} has set by the time it is met (${l.ageMin.toFixed(0)} min): end at a line that hides it.`,
            ),
            ...(more > 0 ? [tr`So have ${more} more.`] : []),
          ]),
        ]
      : []),
  ];
}

/** The part of a drawing that shows one slab. */
function ofSlab({ results }: Writing, slabId: Id): PlanDrawing | null {
  const zones = results.takeoff.zones.filter((z) => z.slabId === slabId);
  const ids = new Set(zones.map((z) => z.id));
  const voids = new Set(zones.flatMap((z) => z.voids.map((v) => v.id)));
  for (const d of planDrawings(results)) {
    const slab = d.slabs.find((s) => s.id === slabId);
    if (!slab) continue;
    return {
      ...d,
      slabs: [slab],
      zones: d.zones.filter((z) => ids.has(z.id)),
      voids: d.voids.filter((v) => voids.has(v.id)),
      cuts: [],
      dimensions: [],
      box: ringBox(slab.outline),
    };
  }
  return null;
}
