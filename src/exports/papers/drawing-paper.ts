import type { Content } from 'pdfmake/interfaces';
import { tr } from '../../words/tr.ts';
import { drawingPage, type RollingOrder } from '../drawing/drawing-page.ts';
import { type PlanDrawing, planDrawings } from '../drawing/plan-drawing.ts';
import type { PaperContent, Writing } from './paper.ts';
import { MM } from './parts.ts';

/** A page of each sheet that is measured, true to scale. */
export const drawingPaper: PaperContent = (writing) =>
  planDrawings(writing.results).map((d) =>
    drawnPage(writing, [d], tr`Drawing: ${d.sheet.name}`, d.sheet.name),
  );

/** A drawing on a page of its own, true to scale from edge to edge. */
export function drawnPage(
  { results, paper }: Writing,
  drawings: readonly PlanDrawing[],
  bookmark: string,
  subtitle: string,
  order: RollingOrder | null = null,
): Content {
  const { job } = results;
  const words = { title: job.name, subtitle, units: job.settings.units };
  const page = drawingPage(drawings, paper, words, order);
  return {
    stack: [
      {
        text: bookmark,
        outline: true,
        outlineText: bookmark,
        fontSize: 7,
        absolutePosition: { x: 10 * MM, y: 5 * MM },
      },
      {
        svg: page.svg,
        width: page.widthMm * MM,
        absolutePosition: { x: 0, y: 0 },
      },
    ],
    pageBreak: 'before',
    pageOrientation: page.widthMm > page.heightMm ? 'landscape' : 'portrait',
  };
}
