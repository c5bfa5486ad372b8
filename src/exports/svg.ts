import { tr } from '../words/tr.ts';
import { drawingPage } from './drawing/drawing-page.ts';
import { paperOf } from './drawing/paper.ts';
import { planDrawings, sideBySide } from './drawing/plan-drawing.ts';
import type { Export } from './export.ts';

/** The drawing of every sheet, side by side on one page true to scale; the same marks as the PDF's. */
export const svgExport: Export = {
  ending: 'svg',
  label: tr`Drawing (SVG)`,
  type: 'image/svg+xml',
  write: async (results) => {
    const { units } = results.job.settings;
    const drawings = sideBySide(planDrawings(results));
    const words = {
      title: results.job.name,
      subtitle: drawings.map((d) => d.sheet.name).join(', '),
      units,
    };
    const { svg } = drawingPage(drawings, paperOf(results.job), words);
    return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>\n${svg}\n`);
  },
};
