import type { Export } from './export.ts';
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
} from './table.ts';

export const xlsxExport: Export = {
  ending: 'xlsx',
  label: 'Workbook (XLSX)',
  type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  write: async (results) => {
    const { Workbook } = (await import('exceljs')).default;
    const book = new Workbook();
    book.title = results.job.name;
    const tables = [
      takeoffTable,
      coatsTable,
      materialsTable,
      orderTable,
      priceTable,
      scopeTable,
      daysTable,
      rollingTable,
    ].map((t) => t(results));
    for (const table of tables) addTable(book, table);
    return new Uint8Array(await book.xlsx.writeBuffer());
  },
};

function addTable(book: import('exceljs').Workbook, table: Table): void {
  const sheet = book.addWorksheet(table.name, {
    views: [{ state: 'frozen', ySplit: 1 }],
    pageSetup: { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  });
  sheet.columns = table.columns.map(({ heading, digits }) => ({
    header: heading,
    width: Math.max(12, heading.length + 2),
    ...(digits === null ? {} : { style: { numFmt: digits === 0 ? '0' : `0.${'0'.repeat(digits)}` } }),
  }));
  for (const row of table.rows) sheet.addRow([...row]);
  if (table.totals.length > 0) {
    const first = 2;
    const last = table.rows.length + 1;
    const added = sheet.addRow(
      table.totals.map((cell, c) => {
        if (typeof cell === 'string' || table.rows.length === 0) return cell;
        const column = sheet.getColumn(c + 1).letter;
        return { formula: `SUM(${column}${first}:${column}${last})`, result: cell };
      }),
    );
    added.font = { bold: true };
  }
  sheet.getRow(1).font = { bold: true };
}
