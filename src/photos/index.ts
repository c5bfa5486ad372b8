import type { PhotoAnswer, PhotoTask } from './photo-worker.ts';
import type { Warp } from './warp.ts';

export { copyFor, MOST_PIXELS } from './copies.ts';
export type { Warp } from './warp.ts';

/**
 * Copies of a photo for drawing at any zoom, the largest first (see `makeCopies`).
 * @param gone ends the work
 * @throws when the photo is damaged, or the work was ended
 */
export async function copiesOf(photo: Blob, gone: AbortSignal): Promise<readonly ImageBitmap[]> {
  const answer = await besideThePage({ task: 'copies', photo }, [], gone);
  if ('copies' in answer) return answer.copies;
  throw new Error('fault' in answer ? answer.fault : 'no copies');
}

/**
 * A picture of the ground seen straight from above, taken out of a photo.
 * @throws when the photo is damaged
 */
export async function straightPicture(photo: Blob | ImageBitmap, warp: Warp): Promise<Blob> {
  const answer = await besideThePage({ task: 'straight', photo, warp }, photo instanceof Blob ? [] : [photo]);
  if ('straight' in answer) return answer.straight;
  throw new Error('fault' in answer ? answer.fault : 'no picture');
}

/** Decoding takes up to seconds: the page goes on meanwhile. */
async function besideThePage(
  task: PhotoTask,
  transfer: Transferable[],
  gone?: AbortSignal,
): Promise<PhotoAnswer> {
  const worker = new Worker(new URL('./photo-worker.ts', import.meta.url), { type: 'module' });
  try {
    return await new Promise<PhotoAnswer>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<PhotoAnswer>) => resolve(data);
      worker.onerror = (event) => reject(new Error(event.message));
      gone?.addEventListener('abort', () => reject(new Error('no longer wanted')));
      worker.postMessage(task, transfer);
    });
  } finally {
    worker.terminate();
  }
}
