import { openPdf } from '../../pdf-reader.ts';

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
    close: () => void task.destroy(),
  };
}
