import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type Command, Option } from 'commander';
import { EXPORTS, exportFor, writeExport } from '../exports/index.ts';
import { PAPER_IDS } from '../exports/papers/paper.ts';
import { importFile } from '../imports/index.ts';
import { readJobFile } from '../job/file.ts';
import { results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { addImport, type ImportCommand, idsFor, importOptions } from './add-import.ts';
import { deskFor, papersNamed } from './desk.ts';
import { detailOf, isJobFile, loadFile, readBytes, readText, refuse, writeJob } from './disk.ts';
import { conflictText, mergeFiles } from './merge-files.ts';
import { sayTo, type Terminal } from './terminal.ts';

const SCHEMAS: Readonly<Record<string, string>> = {
  job: '../job/job.schema.json',
  results: '../exports/results.schema.json',
};

/** Commands that read or write files beside a job. */
export function addFileCommands(program: Command, terminal: Terminal): void {
  const say = sayTo(terminal);

  program
    .command('export <job>')
    .description(tr`writes a file; its ending says what kind: ${EXPORTS.map((e) => e.ending).join(', ')}`)
    .requiredOption('--to <file>', tr`the file to write`)
    .option('--papers <names>', tr`of a PDF, with commas between: ${PAPER_IDS.join(', ')}`)
    .action(async (path: string, options: { to: string; papers?: string }) => {
      const kind = exportFor(options.to);
      if (!kind.ok) return refuse(kind.problem);
      if (options.papers !== undefined && kind.value.ending !== 'pdf')
        return refuse({
          code: 'import/option',
          option: '--papers',
          expected: tr`left out unless a PDF is written`,
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
      tr`prints the published JSON Schema of: job, the file that is saved; results, all numbers exported`,
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
      tr`makes a sheet of a photo, PDF, DXF, SVG, GeoJSON, KML or GPX, in a new job or one that is there`,
    )
    .requiredOption('--to <job>', tr`the job file to write or to add to`)
    .option('--units <unit>', tr`of a drawing: mm, cm, dm, m, km, in, ft, yd`)
    .option('--scale <1:N>', tr`of a page or a drawing on paper`)
    .option('--page <number>', tr`of a document`, Number)
    .option('--password <word>', tr`of a document`)
    .option('--layers <names>', tr`of a drawing, with commas between`)
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
      if (read.value.layers.length > 1) say(tr`Layers: ${read.value.layers.map((l) => l.name).join(', ')}.`);
      return undefined;
    });

  program
    .command('merge <base> <a> <b>')
    .description(
      tr`one job of two copies that were changed apart from a base; what both changed is asked about`,
    )
    .requiredOption('--to <file>', tr`the job file to write`)
    .addOption(
      new Option('--take <side>', tr`whose word holds where both changed the same`).choices([
        'a',
        'b',
        'base',
      ]),
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
}
