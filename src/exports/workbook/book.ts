import type { Workbook } from 'exceljs';
import { ALL_VALUES } from '../../coating/systems/index.ts';
import { DAY_VALUES, WORK_VALUES } from '../../days/values.ts';
import { QUOTE_VALUES } from '../../quote/values.ts';
import type { Results } from '../../results.ts';
import { unitText } from '../../units/format.ts';
import { tr } from '../../words/tr.ts';
import { sourceText } from '../../working/source.ts';
import { SHEETS } from '../sheet-names.ts';
import {
  coatsTable,
  daysTable,
  materialsTable,
  orderTable,
  priceTable,
  rollingTable,
  scopeTable,
  type Table,
  takeoffTable,
} from '../table.ts';
import { Ledger, VALUE_COLUMN } from './ledger.ts';
import { addOrderSheets } from './order-sheets.ts';
import { addHoursSheet, addPriceSheet } from './price-sheet.ts';
import { addRiskSheet } from './risk-sheet.ts';
import { addTable, entryOf, forChanging, nameCell, newSheet, printAll } from './sheets.ts';

/** The whole workbook as its file's bytes. */
export async function workbookBytes(results: Results): Promise<Uint8Array> {
  const { Workbook } = (await import('exceljs')).default;
  const book = new Workbook();
  book.title = results.job.name;
  book.calcProperties.fullCalcOnLoad = true;
  fill(book, results);
  return new Uint8Array(await book.xlsx.writeBuffer());
}

function fill(book: Workbook, results: Results): void {
  const values = [...ALL_VALUES, ...DAY_VALUES, ...WORK_VALUES, ...QUOTE_VALUES];
  const ledger = new Ledger(new Map(values.map((d) => [d.key, d])));
  addAbout(book, results);
  // What the sheets of results link to is made while they are; it comes after them.
  const table = (t: Table) => addTable(book, t, ledger);
  const open = results.order.blocks.length === 0;
  // How the litres are spread must be known before anything asks for them.
  if (open) addRiskSheet(book, results, ledger);
  const zones = takeoffTable(results);
  const takeoff = table(zones);
  for (const [heading, name] of NAMED_TOTALS) {
    const column = zones.columns.findIndex((c) => c.heading === heading) + 1;
    nameCell(takeoff.getRow(takeoff.rowCount).getCell(column), name);
  }
  table(coatsTable(results));
  table(materialsTable(results));
  if (open) {
    const packs = addOrderSheets(book, results, ledger);
    addHoursSheet(book, results, ledger);
    addPriceSheet(book, results, packs, ledger);
  } else {
    table(orderTable(results));
    table(priceTable(results));
  }
  addRates(book, ledger);
  addWorkings(book, ledger);
  for (const t of [scopeTable, daysTable, rollingTable]) table(t(results));
  inOrder(book);
}

const NAMED_TOTALS = [
  [tr`Net area (m²)`, 'Area_net'],
  [tr`For payment (m²)`, 'Area_for_payment'],
  [tr`Cut-in (m)`, 'Length_cut_in'],
  [tr`Masked (m)`, 'Length_masked'],
] as const;

function inOrder(book: Workbook): void {
  const order: readonly string[] = Object.values(SHEETS);
  book.worksheets.forEach((sheet) => {
    (sheet as { orderNo?: number }).orderNo = order.indexOf(sheet.name);
  });
}

function addAbout(book: Workbook, { job }: Results): void {
  const sheet = newSheet(book, SHEETS.about, [{ heading: job.name, digits: null }]);
  const words = [
    job.note,
    tr`Change what is tinted: values on the sheet ${SHEETS.rates}, prices on ${SHEETS.order} and ${SHEETS.price}. Coats, order, hours and price follow.`,
    tr`Areas and lengths were measured in the tool and stand as numbers; so do the days that drying forces, and what is bought one for each paint.`,
    tr`Packs are picked from the sheet ${SHEETS.packs}, which lists the cheapest choices at the prices when this was written; beyond its last row the tool has to choose again.`,
    tr`Metric units, named in the headings. Sources stand beside every value; “common practice, no source” and “from memory” mean what they say.`,
  ];
  for (const text of words) if (text) sheet.addRow([text]);
  sheet.getColumn(1).width = 100;
  sheet.getColumn(1).alignment = { wrapText: true, vertical: 'top' };
  printAll(sheet);
}

/** Values that geometry was measured with, or that decide what goes into one line: no formula of cells follows them. */
const isMeasuredWith = (key: string | undefined): boolean =>
  key === 'measure.brush-width' || /^texture\..*\.nap$/.test(key ?? '');

function addRates(book: Workbook, ledger: Ledger): void {
  const sheet = newSheet(book, SHEETS.rates, [
    { heading: tr`Group`, digits: null },
    { heading: tr`Value`, digits: null },
    { heading: tr`In use`, digits: null },
    { heading: tr`Unit`, digits: null },
    { heading: tr`Lowest`, digits: null },
    { heading: tr`Highest`, digits: null },
    { heading: tr`Name in formulas`, digits: null },
    { heading: tr`Source`, digits: null },
    { heading: tr`Note`, digits: null },
  ]);
  for (const { quantity: q, value, cellName } of ledger.rates) {
    const row = sheet.addRow([
      value?.group ?? '',
      value?.name ?? q.name,
      q.value,
      q.unit === '1' ? '' : unitText(q.unit),
      value?.low ?? null,
      value?.high ?? null,
      cellName,
      sourceText(q.source),
      q.note ?? '',
    ]);
    if (isMeasuredWith(q.key))
      row.getCell(9).value = tr`The tool measured or sorted with it: change it there.`;
    else forChanging(row.getCell(3), value);
    nameCell(row.getCell(3), cellName);
  }
  for (const [column, width] of [
    [1, 22],
    [2, 34],
    [7, 30],
    [8, 40],
    [9, 40],
  ] as const)
    sheet.getColumn(column).width = width;
  printAll(sheet);
}

function addWorkings(book: Workbook, ledger: Ledger): void {
  const sheet = newSheet(book, SHEETS.working, [
    { heading: tr`Number`, digits: null },
    { heading: tr`Symbol`, digits: null },
    { heading: tr`Value`, digits: null },
    { heading: tr`Unit`, digits: null },
    { heading: tr`Formula, or how it was found`, digits: null },
    { heading: tr`Source`, digits: null },
  ]);
  for (const { quantity: q, cell } of ledger.workings) {
    sheet.addRow([
      q.name,
      q.symbol,
      entryOf(cell, ledger),
      q.unit === '1' ? '' : unitText(q.unit),
      q.formula ? `${q.symbol} = ${q.formula}`.slice(0, 500) : (q.explanation ?? ''),
      sourceText(q.source),
    ]);
  }
  for (const [column, width] of [
    [1, 44],
    [5, 44],
    [6, 44],
  ] as const)
    sheet.getColumn(column).width = width;
  if (VALUE_COLUMN !== sheet.getColumn(3).letter) throw new Error('values stand in another column');
  printAll(sheet);
}
