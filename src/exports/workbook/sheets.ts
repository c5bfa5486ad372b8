import type { CellValue, Cell as ExcelCell, Workbook, Worksheet } from 'exceljs';
import { tr } from '../../words/tr.ts';
import { plainText } from '../drawing/svg-marks.ts';
import { type Cell, type Column, plain, type Table } from '../table.ts';
import type { Ledger, LiveCell } from './ledger.ts';

/** What may stand in a cell of ours. */
export type Entry = Cell | LiveCell | null;

/** Spreadsheets hold no longer text in a cell (ECMA-376, 18.18.93 and Excel's limits, from memory). */
const LONGEST = 32_767;

const isLive = (entry: Entry): entry is LiveCell =>
  typeof entry === 'object' && entry !== null && 'result' in entry;

/** A value as the library takes it; text stays text, whatever it begins with. */
export function entryOf(entry: Entry, ledger: Ledger): CellValue {
  if (entry === null) return null;
  if (typeof entry === 'string') return plainText(entry).slice(0, LONGEST);
  if (typeof entry === 'number') return entry;
  if (isLive(entry)) return { formula: entry.formula, result: entry.result };
  return { ...ledger.link(entry) };
}

/** How numbers with so many digits after the point are shown. */
export const numberFormat = (digits: number): string => (digits === 0 ? '0' : `0.${'0'.repeat(digits)}`);

/** A new sheet with a frozen heading that is printed on every page, as wide as the paper. */
export function newSheet(book: Workbook, name: string, columns: readonly Column[]): Worksheet {
  const sheet = book.addWorksheet(name, {
    views: [{ state: 'frozen', ySplit: 1 }],
    pageSetup: { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
    headerFooter: { oddFooter: `&L${(book.title ?? '').slice(0, 120).replace(/&/g, '&&')}&C&A&R&P / &N` },
  });
  sheet.columns = columns.map(({ heading, digits }) => ({
    header: heading,
    width: Math.min(60, Math.max(12, heading.length + 2)),
    ...(digits === null ? {} : { style: { numFmt: numberFormat(digits) } }),
  }));
  sheet.getRow(1).font = { bold: true };
  sheet.getRow(1).alignment = { wrapText: true, vertical: 'top' };
  sheet.pageSetup.printTitlesRow = '1:1';
  return sheet;
}

/** Says what of a sheet is printed: all that is in it. */
export function printAll(sheet: Worksheet): void {
  const last = sheet.getColumn(Math.max(1, sheet.columnCount)).letter;
  sheet.pageSetup.printArea = `A1:${last}${Math.max(1, sheet.rowCount)}`;
}

/** A table of results, its quantities linked to their workings and its sums live. */
export function addTable(book: Workbook, table: Table, ledger: Ledger): Worksheet {
  const sheet = newSheet(book, table.name, table.columns);
  for (const row of table.rows) sheet.addRow(row.map((cell) => entryOf(cell, ledger)));
  if (table.totals.length > 0) {
    const last = table.rows.length + 1;
    const totals = sheet.addRow(
      table.totals.map((cell, c): CellValue => {
        if (typeof cell === 'string' || table.rows.length === 0) return entryOf(cell, ledger);
        const column = sheet.getColumn(c + 1).letter;
        return { formula: `SUM(${column}2:${column}${last})`, result: plain(cell) as number };
      }),
    );
    totals.font = { bold: true };
  }
  printAll(sheet);
  return sheet;
}

/** Gives a cell a name that formulas can use. */
export function nameCell(cell: ExcelCell, name: string): void {
  cell.name = name;
}

/** A cell for a person to change: tinted, and held within its range. */
export function forChanging(
  cell: ExcelCell,
  range: { readonly low: number; readonly high: number } | null,
): void {
  cell.fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFFFF6DB' } };
  cell.border = { bottom: { style: 'thin', color: { argb: 'FF5B6672' } } };
  if (!range) return;
  cell.dataValidation = {
    type: 'decimal',
    operator: 'between',
    allowBlank: true,
    formulae: [range.low, range.high],
    showErrorMessage: true,
    errorTitle: tr`Out of range`,
    error: tr`Between ${range.low} and ${range.high}.`,
  };
}
