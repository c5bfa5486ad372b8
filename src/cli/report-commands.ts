import { basename } from 'node:path';
import { type Command, Option } from 'commander';
import { coatingJson } from '../exports/coating-json.ts';
import { tableCsv } from '../exports/csv.ts';
import { daysJson } from '../exports/days-json.ts';
import { orderJson } from '../exports/order-json.ts';
import { quoteJson } from '../exports/quote-json.ts';
import { coatsTable, orderTable, priceTable, takeoffTable } from '../exports/table.ts';
import { takeoffJson } from '../exports/takeoff-json.ts';
import { readWeather } from '../imports/weather/index.ts';
import { type Results, results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { daysText } from './days-text.ts';
import { load, NotSound, readText, refuse } from './disk.ts';
import { json, sayTo, type Terminal } from './terminal.ts';
import { coatingText, orderText, quoteText, takeoffText } from './text.ts';

const format = () =>
  new Option('--format <kind>', tr`how to print it`).choices(['text', 'json', 'csv']).default('text');

/** One account of a job in each of its formats, and what has to hold before it is given. */
interface Report {
  readonly json: (r: Results) => unknown;
  readonly table: (r: Results) => Parameters<typeof tableCsv>[0];
  readonly text: (r: Results) => string;
  readonly check?: (r: Results) => void;
}

/** Commands that print what follows from a job. */
export function addReports(program: Command, terminal: Terminal): void {
  const say = sayTo(terminal);

  const add = (name: string, description: string, report: Report): void => {
    program
      .command(`${name} <job>`)
      .description(description)
      .addOption(format())
      .action((path: string, options: { format: string }) => {
        const r = load(path);
        report.check?.(r);
        if (options.format === 'json') say(json(report.json(r)));
        else if (options.format === 'csv') terminal.out(tableCsv(report.table(r)));
        else say(report.text(r));
      });
  };

  add('takeoff', tr`zones, areas and edges`, { json: takeoffJson, table: takeoffTable, text: takeoffText });
  add('coating', tr`litres, etch and grip additive, per zone and coat`, {
    json: coatingJson,
    table: coatsTable,
    text: coatingText,
  });
  add('order', tr`packs to buy for each product and colour, and their cost`, {
    json: orderJson,
    table: orderTable,
    text: orderText,
    check: ({ order: { blocks } }) => {
      const [block] = blocks;
      if (block) refuse({ code: 'order/blocked', sentence: block.sentence });
    },
  });
  add('quote', tr`scope, hours, costs and the offer`, {
    json: quoteJson,
    table: priceTable,
    text: quoteText,
  });

  program
    .command('days <job>')
    .description(tr`the day plan in its weather, and the order of rolling`)
    .option('--weather <file>', tr`CSV, EPW, or the JSON of a public forecast`)
    .option('--latitude <degrees>', tr`where a file does not say`, Number)
    .option('--longitude <degrees>', tr`where a file does not say`, Number)
    .option('--zone <hours>', tr`hours that the clock is ahead of UTC`, Number)
    .addOption(new Option('--format <kind>', tr`how to print it`).choices(['text', 'json']).default('text'))
    .action((path: string, options: DaysOptions) => {
      const r = inWeather(load(path), options);
      if (options.format === 'json') say(json(daysJson(r)));
      else say(daysText(r));
    });

  program
    .command('check <job>')
    .description(tr`what is wrong with a job, in sentences`)
    .action((path: string) => {
      const { remarks } = load(path);
      const faults = remarks.filter((r) => r.severity !== 'note');
      for (const r of remarks) say(r.sentence);
      if (remarks.length === 0) say(tr`Nothing is wrong with this job.`);
      if (faults.some((r) => r.severity === 'stop')) throw new NotSound();
    });
}

interface DaysOptions {
  readonly format: string;
  readonly weather?: string;
  readonly latitude?: number;
  readonly longitude?: number;
  readonly zone?: number;
}

/** The job in the weather of a file; in its own where none is given. */
function inWeather(r: Results, { weather, latitude, longitude, zone }: DaysOptions): Results {
  if (weather === undefined) return r.job.weather ? r : refuse({ code: 'weather/missing' });
  const own = r.job.weather;
  const place =
    latitude !== undefined && longitude !== undefined
      ? { latitude, longitude, zoneH: zone ?? Math.round(longitude / 15) }
      : own
        ? { latitude: own.latitude, longitude: own.longitude, zoneH: own.zoneH }
        : null;
  const read = readWeather(readText(weather), basename(weather), place);
  return read.ok ? results({ ...r.job, weather: read.value }) : refuse(read.problem);
}
