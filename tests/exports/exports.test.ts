import { parse } from 'csv-parse/sync';
import { readSheet } from 'read-excel-file/node';
import { expect, test } from 'vitest';
import { tableCsv } from '../../src/exports/csv.ts';
import { exportFor, writeExport } from '../../src/exports/index.ts';
import { emptyJob } from '../../src/job/types.ts';
import { results } from '../../src/results.ts';
import { DESK } from './scene.ts';

const columns = [
  { heading: 'Zone', digits: null },
  { heading: 'Net', digits: 2 },
];

test('CSV after RFC 4180: commas, quotes and line breaks survive; formulas are not run; the record ends in CRLF', () => {
  const names = ['a,b', 'he said "x"', 'two\nlines', '=1+1', '@cmd', '+a', 'شارع', '🚧'];
  const text = tableCsv({ name: 't', columns, rows: names.map((n, i) => [n, -i / 3]), totals: [] });
  expect(text.endsWith('\r\n')).toBe(true);
  const back: string[][] = parse(text);
  expect(back.slice(1).map((r) => r[0]!.replace(/^'/, ''))).toEqual(names);
  expect(back[4]![0]).toBe("'=1+1");
  expect(back[2]![1]).toBe('-0.33333');
});

test('an empty job has nothing to write, and says so', async () => {
  const kind = exportFor('a.XLSX');
  if (!kind.ok) throw new Error();
  const made = await writeExport(kind.value, results(emptyJob('e', 'Empty')), DESK);
  expect(made).toEqual({ ok: false, problem: { code: 'export/empty' } });
});

test('the workbook is read by an independent library', async () => {
  const { readFileSync } = await import('node:fs');
  const { readJobFile } = await import('../../src/job/file.ts');
  const file = readJobFile(readFileSync('demo-plans/yard/job.json', 'utf8'), 'job.json');
  const kind = exportFor('a.xlsx');
  if (!file.ok || !kind.ok) throw new Error();
  const r = results(file.value.job);
  const made = await writeExport(kind.value, r, DESK);
  if (!made.ok) throw new Error();
  const rows = await readSheet(Buffer.from(made.value), 'Takeoff');
  const net = rows[0]!.indexOf('Net area (m²)');
  expect(rows[1]![net]).toBeCloseTo(r.takeoff.zones[0]!.netArea.value, 9);
  const coats = await readSheet(Buffer.from(made.value), 'Coats');
  expect(coats).toHaveLength(4);
});
