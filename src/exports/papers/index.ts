import { dayPaper } from './day-paper.ts';
import { drawingPaper } from './drawing-paper.ts';
import { handoverPaper } from './handover-paper.ts';
import { mixPaper } from './mix-paper.ts';
import { orderPaper } from './order-paper.ts';
import type { PaperContent, PaperId } from './paper.ts';
import { quotePaper } from './quote-paper.ts';
import { safetyPaper } from './safety-paper.ts';
import { tablesPaper } from './tables-paper.ts';

/** What stands on every kind of paper. */
export const PAPER_CONTENTS: Readonly<Record<PaperId, PaperContent>> = {
  quote: quotePaper,
  drawing: drawingPaper,
  tables: tablesPaper,
  order: orderPaper,
  mixes: mixPaper,
  days: dayPaper,
  safety: safetyPaper,
  handover: handoverPaper,
};
