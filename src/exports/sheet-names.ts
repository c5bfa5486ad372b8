import { tr } from '../words/tr.ts';

/** The workbook's sheets in their order: results first, what they are worked out with next, the long words last. */
export const SHEETS = {
  about: tr`About`,
  takeoff: tr`Takeoff`,
  coats: tr`Coats`,
  materials: tr`Materials`,
  order: tr`Order`,
  hours: tr`Hours`,
  price: tr`Price`,
  rates: tr`Rates`,
  working: tr`Working`,
  risk: tr`Risk`,
  packs: tr`Packs`,
  scope: tr`Scope`,
  days: tr`Days`,
  rolling: tr`Rolling`,
} as const;

/** Cells of one of the sheets, as a formula on another names them. */
export const onSheet = (sheet: keyof typeof SHEETS, cells: string): string =>
  `'${SHEETS[sheet].replace(/'/g, "''")}'!${cells}`;
