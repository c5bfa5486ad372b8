import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { Command, CommanderError, Option } from 'commander';
import { coatingJson } from '../exports/coating-json.ts';
import { tableCsv } from '../exports/csv.ts';
import { daysJson } from '../exports/days-json.ts';
import { EXPORTS, exportFor, writeExport } from '../exports/index.ts';
import { orderJson } from '../exports/order-json.ts';
import { PAPER_IDS } from '../exports/papers/paper.ts';
import { quoteJson } from '../exports/quote-json.ts';
import { coatsTable, orderTable, priceTable, takeoffTable } from '../exports/table.ts';
import { takeoffJson } from '../exports/takeoff-json.ts';
import { importFile } from '../imports/index.ts';
import { readWeather } from '../imports/weather/index.ts';
import { readJobFile, writeJobFile } from '../job/file.ts';
import type { JobFile } from '../job/types.ts';
import { type Problem, sentence } from '../problem.ts';
import { type Results, results } from '../results.ts';
import { addImport, type ImportCommand, idsFor, importOptions } from './add-import.ts';
import { daysText } from './days-text.ts';
import { deskFor, papersNamed } from './desk.ts';
import { conflictText, mergeFiles } from './merge-files.ts';
import { coatingText, orderText, quoteText, takeoffText } from './text.ts';

/** 0 done, 1 the input is at fault, 2 wrong usage. */
const AT_FAULT = 1;
const WRONG_USAGE = 2;

class InputAtFault extends Error {}

const refuse = (problem: Problem): never => {
  throw new InputAtFault(sentence(problem));
};

const detailOf = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'there is no such file or folder';
  if (code === 'EISDIR') return 'it is a folder';
  if (code === 'EACCES') return 'you may not';
  return code ?? String(error);
};

function readText(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    return refuse({ code: 'file/unreadable', file: path, detail: detailOf(error) });
  }
}

/** Whether a saved job is there, which no export writes over. */
const isJobFile = (path: string): boolean =>
  existsSync(path) && readFileSync(path, 'utf8').slice(0, 100_000_000).includes('"slabwright job"');

function loadFile(path: string): JobFile {
  const file = readJobFile(readText(path), basename(path));
  return file.ok ? file.value : refuse(file.problem);
}

const load = (path: string): Results => results(loadFile(path).job);

const say = (text: string): void => {
  process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
};

// Who reads the output may stop before its end.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const json = (value: unknown): string => JSON.stringify(value, null, 1);

const program = new Command('slabwright')
  .description('Measures the slabs of a job and works out what coating them takes.')
  .exitOverride();

const format = () =>
  new Option('--format <kind>', 'how to print it').choices(['text', 'json', 'csv']).default('text');

program
  .command('takeoff <job>')
  .description('zones, areas and edges')
  .addOption(format())
  .action((path: string, options: { format: string }) => {
    const r = load(path);
    if (options.format === 'json') say(json(takeoffJson(r)));
    else if (options.format === 'csv') process.stdout.write(tableCsv(takeoffTable(r)));
    else say(takeoffText(r));
  });

program
  .command('coating <job>')
  .description('litres, etch and grip additive, per zone and coat')
  .addOption(format())
  .action((path: string, options: { format: string }) => {
    const r = load(path);
    if (options.format === 'json') say(json(coatingJson(r)));
    else if (options.format === 'csv') process.stdout.write(tableCsv(coatsTable(r)));
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
    else if (options.format === 'csv') process.stdout.write(tableCsv(orderTable(r)));
    else say(orderText(r));
  });

program
  .command('quote <job>')
  .description('scope, hours, costs and the offer')
  .addOption(format())
  .action((path: string, options: { format: string }) => {
    const r = load(path);
    if (options.format === 'json') say(json(quoteJson(r)));
    else if (options.format === 'csv') process.stdout.write(tableCsv(priceTable(r)));
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

const SCHEMAS: Readonly<Record<string, string>> = {
  job: '../job/job.schema.json',
  results: '../exports/results.schema.json',
};

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

program
  .command('export <job>')
  .description(`writes a file; its ending says what kind: ${EXPORTS.map((e) => e.ending).join(', ')}`)
  .requiredOption('--to <file>', 'the file to write')
  .option('--papers <names>', `of a PDF, with commas between: ${PAPER_IDS.join(', ')}`)
  .action(async (path: string, options: { to: string; papers?: string }) => {
    const kind = exportFor(options.to);
    if (!kind.ok) return refuse(kind.problem);
    if (options.papers !== undefined && kind.value.ending !== 'pdf')
      return refuse({
        code: 'import/option',
        option: '--papers',
        expected: 'left out unless a PDF is written',
      });
    if (isJobFile(options.to)) return refuse({ code: 'export/over-job', file: options.to });
    const papers = papersNamed(options.papers);
    if (!papers.ok) return refuse(papers.problem);
    const file = loadFile(path);
    const bytes = await writeExport(kind.value, results(file.job), deskFor(path, file, papers.value));
    if (!bytes.ok) return refuse(bytes.problem);
    try {
      writeFileSync(options.to, bytes.value);
    } catch (error) {
      refuse({ code: 'file/unwritable', file: options.to, detail: detailOf(error) });
    }
    return undefined;
  });

program
  .command('schema <kind>')
  .description(
    'prints the published JSON Schema of: job, the file that is saved; results, all numbers exported',
  )
  .action((kind: string) => {
    const path = Object.hasOwn(SCHEMAS, kind) ? SCHEMAS[kind] : undefined;
    if (!path)
      return refuse({ code: 'import/option', option: kind, expected: Object.keys(SCHEMAS).join(' or ') });
    return say(readFileSync(new URL(path, import.meta.url), 'utf8'));
  });

program
  .command('import <file>')
  .description(
    'makes a sheet of a photo, PDF, DXF, SVG, GeoJSON, KML or GPX, in a new job or one that is there',
  )
  .requiredOption('--to <job>', 'the job file to write or to add to')
  .option('--units <unit>', 'of a drawing: mm, cm, dm, m, km, in, ft, yd')
  .option('--scale <1:N>', 'of a page or a drawing on paper')
  .option('--page <number>', 'of a document', Number)
  .option('--password <word>', 'of a document')
  .option('--layers <names>', 'of a drawing, with commas between')
  .action(async (path: string, options: ImportCommand) => {
    const old = existsSync(options.to) ? readJobFile(readText(options.to), basename(options.to)) : null;
    if (old && !old.ok) return refuse(old.problem);
    const read = await importFile(
      readBytes(path),
      basename(path),
      importOptions(options),
      idsFor(old?.value.job),
    );
    if (!read.ok) return refuse(read.problem);
    const file = addImport(old?.value ?? null, read.value);
    if (!file.ok) return refuse(file.problem);
    writeJob(options.to, file.value);
    for (const note of read.value.notes) say(note);
    if (read.value.layers.length > 1) say(`Layers: ${read.value.layers.map((l) => l.name).join(', ')}.`);
    return undefined;
  });

program
  .command('merge <base> <a> <b>')
  .description('one job of two copies that were changed apart from a base; what both changed is asked about')
  .requiredOption('--to <file>', 'the job file to write')
  .addOption(
    new Option('--take <side>', 'whose word holds where both changed the same').choices(['a', 'b', 'base']),
  )
  .action((base: string, a: string, b: string, options: { to: string; take?: 'a' | 'b' | 'base' }) => {
    const side = options.take === 'base' ? null : (options.take ?? null);
    const merged = mergeFiles(loadFile(base), loadFile(a), loadFile(b), side);
    if (!merged.ok) return refuse(merged.problem);
    const { file, conflicts } = merged.value;
    for (const conflict of conflicts) say(conflictText(conflict));
    if (conflicts.length > 0 && !options.take) return refuse({ code: 'merge/undecided' });
    writeJob(options.to, file);
    return undefined;
  });

function writeJob(path: string, file: JobFile): void {
  try {
    writeFileSync(path, writeJobFile(file));
  } catch (error) {
    refuse({ code: 'file/unwritable', file: path, detail: detailOf(error) });
  }
}

function readBytes(path: string): Uint8Array {
  try {
    return new Uint8Array(readFileSync(path));
  } catch (error) {
    return refuse({ code: 'file/unreadable', file: path, detail: detailOf(error) });
  }
}

program
  .command('check <job>')
  .description('what is wrong with a job, in sentences')
  .action((path: string) => {
    const { remarks } = load(path);
    const faults = remarks.filter((r) => r.severity !== 'note');
    for (const r of remarks) say(r.sentence);
    if (remarks.length === 0) say('Nothing is wrong with this job.');
    if (faults.some((r) => r.severity === 'stop')) process.exitCode = AT_FAULT;
  });

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof InputAtFault) {
    process.stderr.write(`${error.message}\n`);
    process.exitCode = AT_FAULT;
  } else if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : WRONG_USAGE;
  } else {
    throw error;
  }
}
