import { tr } from '../words/tr.ts';
import type { Export } from './export.ts';

/** Quote, drawings, tables, order, mixes, day sheets, readiness and handover. */
export const pdfExport: Export = {
  ending: 'pdf',
  label: tr`Papers (PDF)`,
  type: 'application/pdf',
  write: async (results, desk) => (await import('./papers/pack.ts')).papersPdf(results, desk),
};
