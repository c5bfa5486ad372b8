import type { Content } from 'pdfmake/interfaces';
import { DEFERENCE } from '../../coating/cautions.ts';
import { careOf, nextCoats, paintUsed, productName, recordsOf, WORK_WORDS } from '../../coating/handover.ts';
import { plainNumber, shownUnit, volumeNumber, volumeUnit } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { dayText, monthAfter } from './dates.ts';
import type { PaperContent, Writing } from './paper.ts';
import { bullets, heading, para, quiet, table, title } from './parts.ts';
import { canBeSet, toBase64 } from './pictures.ts';

/** What was done, with what, in what weather; how to look after it and when to look at it again. */
export const handoverPaper: PaperContent = async (writing) => {
  const { job, takeoff, coating } = writing.results;
  // Among all papers only once there is something to hand over; by itself also as a sheet to fill in.
  if (coating.paints.length === 0 || (!writing.desk.papers && recordsOf(job).length === 0)) return [];
  return [
    title(tr`Handover and care`),
    ...done(writing),
    ...used(writing),
    ...weather(writing),
    ...next(writing),
    heading(tr`Looking after it`),
    bullets(careOf(takeoff.zones, coating)),
    quiet(tr`Common practice, no source; the paint maker’s own words go before these. ${DEFERENCE}`),
    ...(await photos(
      writing,
      recordsOf(job).flatMap((r) => r.photos.map((id) => ({ id, on: r.on }))),
    )),
  ];
};

function done({ results: { job } }: Writing): Content[] {
  const records = recordsOf(job);
  if (records.length === 0) return [para(tr`Nothing is written down yet of the work as it was done.`)];
  const { units } = job.settings;
  return [
    heading(tr`What was done`),
    table(
      [
        { heading: tr`Day`, width: 66 },
        { heading: tr`Where`, width: 80 },
        { heading: tr`Work`, width: 50 },
        { heading: tr`Product`, width: '*' },
        { heading: tr`Used ${volumeUnit(units)}`, number: true },
        { heading: tr`Batch`, width: 60 },
      ],
      records.map((r) => [
        dayText(r.on),
        r.slabId === '' ? tr`all` : (job.slabs[r.slabId]?.name ?? tr`a slab that is gone`),
        WORK_WORDS[r.work],
        r.productId === '' ? '' : productName(r.productId),
        r.usedL === null ? '' : volumeNumber(r.usedL, units),
        r.batch,
      ]),
    ),
  ];
}

function used({ results: { job, coating } }: Writing): Content[] {
  const { units } = job.settings;
  const rows = paintUsed(job, coating)
    .filter((p) => p.usedL !== null || p.batches.length > 0)
    .map((p) => [
      p.name,
      volumeNumber(p.plannedL, units),
      p.usedL === null ? '' : volumeNumber(p.usedL, units),
      p.batches.join(', '),
    ]);
  if (rows.length === 0) return [];
  return [
    heading(tr`Paint used`),
    table(
      [
        { heading: tr`Product`, width: '*' },
        { heading: tr`Worked out ${volumeUnit(units)}`, number: true },
        { heading: tr`Used ${volumeUnit(units)}`, number: true },
        { heading: tr`Batches`, width: 160 },
      ],
      rows,
    ),
  ];
}

function weather({ results: { job, verdicts } }: Writing): Content[] {
  if (verdicts.length === 0) return [];
  const t = shownUnit('°C', job.settings.units);
  const wind = shownUnit('km/h', job.settings.units);
  return [
    heading(tr`Weather on the slab, as it was read`),
    table(
      [
        { heading: tr`When`, width: '*' },
        { heading: tr`Air ${t.unit}`, number: true },
        { heading: tr`Humidity %`, number: true },
        { heading: tr`Slab ${t.unit}`, number: true },
        { heading: tr`Dew point ${t.unit}`, number: true },
        { heading: tr`Wind ${wind.unit}`, number: true },
      ],
      verdicts.map(({ reading: r, dewPoint }) => [
        r.at.replace('T', ' '),
        t.show(r.airC).toFixed(1),
        r.humidityPct.toFixed(0),
        t.show(r.slabC).toFixed(1),
        t.show(dewPoint.value).toFixed(1),
        wind.show(r.windKmH).toFixed(0),
      ]),
    ),
  ];
}

function next({ results: { job, takeoff, coating } }: Writing): Content[] {
  const rows = nextCoats(job, takeoff.zones, coating).map((c) => [
    c.zone,
    c.system,
    c.coatedOn === null ? tr`not written down` : dayText(c.coatedOn),
    plainNumber(c.years.value),
    c.coatedOn === null ? '' : monthAfter(c.coatedOn, c.years.value),
  ]);
  return [
    heading(tr`The next coat`),
    table(
      [
        { heading: tr`Zone`, width: '*' },
        { heading: tr`System`, width: '*' },
        { heading: tr`Last coat`, width: 90 },
        { heading: tr`Years`, number: true },
        { heading: tr`Expected to want another`, width: 110 },
      ],
      rows,
    ),
    quiet(
      tr`An expectation from common practice, without a source: sun, traffic and water decide, and nobody can promise it.`,
    ),
  ];
}

async function photos(
  { desk }: Writing,
  wanted: ReadonlyArray<{ readonly id: string; readonly on: string }>,
): Promise<Content[]> {
  const found: Content[] = [];
  let lost = 0;
  for (const { id, on } of wanted) {
    const image = await desk.image(id);
    if (!image || !canBeSet(image.type, image.bytes)) {
      lost += 1;
      continue;
    }
    found.push({
      stack: [
        { image: `data:${image.type};base64,${toBase64(image.bytes)}`, fit: [245, 220] },
        { text: dayText(on), fontSize: 7.5 },
      ],
      unbreakable: true,
      margin: [0, 0, 0, 8],
    });
  }
  const rows: Content[] = [];
  for (let i = 0; i < found.length; i += 2)
    rows.push({ columns: [found[i]!, found[i + 1] ?? { text: '' }], columnGap: 16 });
  return [
    ...(rows.length > 0 ? [heading(tr`Photos`), ...rows] : []),
    ...(lost > 0
      ? [quiet(tr`${lost} ${lost === 1 ? tr`photo is` : tr`photos are`} not at hand or cannot be read.`)]
      : []),
  ];
}
