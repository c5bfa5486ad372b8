import { tr } from '../words/tr.ts';
import type { Export } from './export.ts';

/** Takeoff, coats, order and price with live formulas: change a value on the sheet Rates, and the rest follows. */
export const xlsxExport: Export = {
  ending: 'xlsx',
  label: tr`Workbook with live formulas (XLSX)`,
  type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  write: async (results) => (await import('./workbook/book.ts')).workbookBytes(results),
};
