import Flatbush from 'flatbush';
import type { PDFPageProxy } from 'pdfjs-dist';
import { openPdf } from '../../pdf-reader.ts';
import type { SheetPoint } from '../../units/types.ts';
import type { FindEnd } from '../snapping.ts';

/** One page of a document, to be drawn part by part. */
export interface Page {
  /** A part of the page in its own points, at so many pixels a point. */
  readonly draw: (
    x: number,
    y: number,
    width: number,
    height: number,
    scale: number,
  ) => Promise<HTMLCanvasElement>;
  /** Finds ends of the page's own lines, for tools to draw to. */
  readonly ends: () => Promise<FindEnd>;
  readonly close: () => void;
}

/** Opens a page of a document that was read before. */
export async function openPage(blob: Blob, number: number, password: string | undefined): Promise<Page> {
  const task = await openPdf(new Uint8Array(await blob.arrayBuffer()), password);
  const document = await task.promise;
  const page = await document.getPage(number);
  return {
    draw: async (x, y, width, height, scale) => {
      const canvas = globalThis.document.createElement('canvas');
      canvas.width = Math.max(1, Math.round(width * scale));
      canvas.height = Math.max(1, Math.round(height * scale));
      const viewport = page.getViewport({ scale, offsetX: -x * scale, offsetY: -y * scale });
      await page.render({ canvas, viewport, intent: 'display' }).promise;
      return canvas;
    },
    ends: async () => finder(await lineEnds(page)),
    close: () => void task.destroy(),
  };
}

/** More ends than this are a shaded picture rather than lines. */
const MOST_ENDS = 400_000;

type Matrix = readonly [number, number, number, number, number, number];

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];

/** Ends of all lines and curves on a page, where it is shown. */
async function lineEnds(page: PDFPageProxy): Promise<SheetPoint[]> {
  const { OPS } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const list = await page.getOperatorList();
  const shown = page.getViewport({ scale: 1 }).transform as unknown as Matrix;
  const ends: SheetPoint[] = [];
  const kept: Matrix[] = [];
  let now: Matrix = shown;
  for (let i = 0; i < list.fnArray.length && ends.length < MOST_ENDS; i++) {
    const args = list.argsArray[i] as readonly unknown[] | null;
    switch (list.fnArray[i]) {
      case OPS.save:
        kept.push(now);
        break;
      case OPS.restore:
        now = kept.pop() ?? shown;
        break;
      case OPS.transform:
        now = times(now, args as unknown as Matrix);
        break;
      case OPS.paintFormXObjectBegin:
        kept.push(now);
        if (Array.isArray(args?.[0])) now = times(now, args[0] as unknown as Matrix);
        break;
      case OPS.paintFormXObjectEnd:
        now = kept.pop() ?? shown;
        break;
      case OPS.constructPath:
        addEnds(ends, args?.[1], now);
        break;
    }
  }
  return ends;
}

/** Numbers that follow each step of a path: move, line, cubic, quadratic, close. */
const FOLLOW = [2, 2, 6, 4, 0];

function addEnds(ends: SheetPoint[], data: unknown, m: Matrix): void {
  const path = Array.isArray(data) ? (data[0] as unknown) : data;
  if (!(path instanceof Float32Array) && !Array.isArray(path)) return;
  for (let i = 0; i < path.length; ) {
    const count = FOLLOW[path[i] as number];
    if (count === undefined) return;
    if (count > 0) {
      const [x, y] = [path[i + count - 1] as number, path[i + count] as number];
      ends.push({ x: m[0] * x + m[2] * y + m[4], y: m[1] * x + m[3] * y + m[5] });
    }
    i += 1 + count;
  }
}

function finder(ends: readonly SheetPoint[]): FindEnd {
  if (ends.length === 0) return () => null;
  const index = new Flatbush(ends.length);
  for (const { x, y } of ends) index.add(x, y, x, y);
  index.finish();
  return (p, reach) => {
    const [near] = index.neighbors(p.x, p.y, 1, reach);
    return near === undefined ? null : ends[near]!;
  };
}
