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
import { daysText } from './days-text.ts';
import { load, NotSound, readText, refuse } from './disk.ts';
import { json, sayTo, type Terminal } from './terminal.ts';
import { coatingText, orderText, quoteText, takeoffText } from './text.ts';

const format = () =>
  new Option('--format <kind>', 'how to print it').choices(['text', 'json', 'csv']).default('text');

/** Commands that print what follows from a job. */
export function addReports(program: Command, terminal: Terminal): void {
  const say = sayTo(terminal);

  program
    .command('takeoff <job>')
    .description('zones, areas and edges')
    .addOption(format())
    .action((path: string, options: { format: string }) => {
      const r = load(path);
      if (options.format === 'json') say(json(takeoffJson(r)));
      else if (options.format === 'csv') terminal.out(tableCsv(takeoffTable(r)));
      else say(takeoffText(r));
    });

  program
    .command('coating <job>')
    .description('litres, etch and grip additive, per zone and coat')
    .addOption(format())
    .action((path: string, options: { format: string }) => {
      const r = load(path);
      if (options.format === 'json') say(json(coatingJson(r)));
      else if (options.format === 'csv') terminal.out(tableCsv(coatsTable(r)));
      else say(coatingText(r));
    });

  program
    .command('order <job>')
    .description('packs to buy for each product and colour, and their cost')
    .addOption(format())
    .action((path: string, options: { format: string }) => {
      const r = load(path);
      const [block] = r.order.blocks;
      if (block) refuse({ code: 'order/blocked', sentence: block.sentence });
      if (options.format === 'json') say(json(orderJson(r)));
      else if (options.format === 'csv') terminal.out(tableCsv(orderTable(r)));
      else say(orderText(r));
    });

  program
    .command('quote <job>')
    .description('scope, hours, costs and the offer')
    .addOption(format())
    .action((path: string, options: { format: string }) => {
      const r = load(path);
      if (options.format === 'json') say(json(quoteJson(r)));
      else if (options.format === 'csv') terminal.out(tableCsv(priceTable(r)));
      else say(quoteText(r));
    });

  program
    .command('days <job>')
    .description('the day plan in its weather, and the order of rolling')
    .option('--weather <file>', 'CSV, EPW, or the JSON of a public forecast')
    .option('--latitude <degrees>', 'where a file does not say', Number)
    .option('--longitude <degrees>', 'where a file does not say', Number)
    .option('--zone <hours>', 'hours that the clock is ahead of UTC', Number)
    .addOption(new Option('--format <kind>', 'how to print it').choices(['text', 'json']).default('text'))
    .action((path: string, options: DaysOptions) => {
      const r = inWeather(load(path), options);
      if (options.format === 'json') say(json(daysJson(r)));
      else say(daysText(r));
    });

  program
    .command('check <job>')
    .description('what is wrong with a job, in sentences')
    .action((path: string) => {
      const { remarks } = load(path);
      const faults = remarks.filter((r) => r.severity !== 'note');
      for (const r of remarks) say(r.sentence);
      if (remarks.length === 0) say('Nothing is wrong with this job.');
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
