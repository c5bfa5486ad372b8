import type { HeicAnswer } from './heic-worker.ts';

/**
 * Pixels of a HEIC photo, upright; decoded beside the page, which takes seconds for a large one.
 * @throws when it is damaged
 */
export async function decodeHeic(blob: Blob): Promise<ImageData> {
  const worker = new Worker(new URL('./heic-worker.ts', import.meta.url), { type: 'module' });
  try {
    const answer = await new Promise<HeicAnswer>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<HeicAnswer>) => resolve(data);
      worker.onerror = (event) => reject(new Error(event.message));
      worker.postMessage(blob);
    });
    if ('fault' in answer) throw new Error(answer.fault);
    return new ImageData(new Uint8ClampedArray(answer.pixels), answer.width, answer.height);
  } finally {
    worker.terminate();
  }
}
