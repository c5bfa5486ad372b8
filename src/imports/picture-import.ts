import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Sheet } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { readImageHeader } from './image-header.ts';
import type { Imported, NewId } from './imported.ts';

/** A sheet from a photo or scan, upright as it is shown; its scale is still to be set. */
export async function importPicture(
  bytes: Uint8Array,
  file: string,
  newId: NewId,
): Promise<Result<Imported, Problem>> {
  const header = readImageHeader(bytes, file);
  if (!header.ok) return header;
  const { type, widthPx, heightPx } = header.value;
  if (type === 'image/png' && !(await pngInflates(bytes))) return fail({ code: 'image/broken', file });
  const imageId = newId('i');
  const sheet: Sheet = {
    id: newId('sheet'),
    name: file.replace(/\.\w+$/, '') || tr`Picture`,
    picture: { imageId, widthPx, heightPx },
    fit: null,
  };
  return ok({
    sheet,
    edits: [{ type: 'add-sheet', args: sheet }],
    image: { id: imageId, type, bytes },
    notes: [
      tr`${widthPx} × ${heightPx} pixels. Set its scale from a length you know, or straighten it by marks on the ground.`,
    ],
    layers: [],
    pages: 1,
  });
}

/** Whether the data of a PNG unpacks without a fault. Its size was checked before. */
async function pngInflates(bytes: Uint8Array): Promise<boolean> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  let at = 8;
  while (at + 12 <= bytes.length) {
    const length = view.getUint32(at);
    if (view.getUint32(at + 4) === 0x49444154) parts.push(bytes.slice(at + 8, at + 8 + length));
    at += 12 + length;
  }
  if (parts.length === 0) return false;
  try {
    const stream = new Blob(parts).stream().pipeThrough(new DecompressionStream('deflate'));
    const reader = stream.getReader();
    for (;;) {
      const { done } = await reader.read();
      if (done) return true;
    }
  } catch {
    return false;
  }
}
