import Papa from 'papaparse';
import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import type { Export } from './export.ts';
import { type Cell, coatsTable, orderTable, plain, priceTable, type Table, takeoffTable } from './table.ts';

/** A table as CSV after RFC 4180: CRLF, quotes doubled. Text that a spreadsheet would run gets an apostrophe before it. */
export function tableCsv(table: Table): string {
  const rows = table.totals.length > 0 ? [...table.rows, table.totals] : table.rows;
  const shown = rows.map((row) => row.map((cell, c) => written(cell, table.columns[c]!.digits)));
  return `${Papa.unparse([table.columns.map((c) => c.heading), ...shown], { newline: '\r\n', escapeFormulae: /^[=+\-@\t\r](?![\d.]+$)/ })}\r\n`;
}

/** Numbers keep three digits more than they are shown with: rounding happens where a person looks. */
function written(cell: Cell, digits: number | null): string {
  const value = plain(cell);
  return typeof value === 'string' ? value : String(Number(value.toFixed((digits ?? 2) + 3)));
}

/** One table as a file of its own; the longer ending says which, where it is not the zones. */
const csvOf = (ending: string, label: string, table: (results: Results) => Table): Export => ({
  ending,
  label,
  type: 'text/csv',
  // The mark before it tells office programs that it is UTF-8.
  write: async (results) => new TextEncoder().encode(`\uFEFF${tableCsv(table(results))}`),
});

export const csvExports: readonly Export[] = [
  csvOf('csv', tr`Table of zones (CSV)`, takeoffTable),
  csvOf('coats.csv', tr`Table of coats (CSV)`, coatsTable),
  csvOf('order.csv', tr`Order list (CSV)`, orderTable),
  csvOf('price.csv', tr`Costs and offer (CSV)`, priceTable),
];
