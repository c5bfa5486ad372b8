import { makeCopies } from './copies.ts';
import { openPhoto } from './open-photo.ts';
import { straighten, type Warp } from './warp.ts';

/** What is asked of the worker, once. */
export type PhotoTask =
  | { readonly task: 'copies'; readonly photo: Blob }
  | { readonly task: 'straight'; readonly photo: Blob | ImageBitmap; readonly warp: Warp };

/** What it says. */
export type PhotoAnswer =
  | { readonly copies: readonly ImageBitmap[] }
  | { readonly straight: Blob }
  | { readonly fault: string };

async function answer(asked: PhotoTask): Promise<PhotoAnswer> {
  if (asked.task === 'copies') return { copies: await makeCopies(asked.photo) };
  const photo = asked.photo instanceof Blob ? await openPhoto(asked.photo) : asked.photo;
  return { straight: await straighten(photo, asked.warp) };
}

self.onmessage = async ({ data }: MessageEvent<PhotoTask>) => {
  const said = await answer(data).catch((error: unknown): PhotoAnswer => ({ fault: String(error) }));
  self.postMessage(said, { transfer: 'copies' in said ? [...said.copies] : [] });
};
