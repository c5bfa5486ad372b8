import { openPhoto } from './open-photo.ts';

/** Pixels that one canvas may hold on a phone; of a larger picture the largest copy is smaller than it. */
export const MOST_PIXELS = 16_000_000;
/** A copy as small as this needs no smaller one: drawing it takes a few milliseconds. */
const FEW_PIXELS = 500_000;

/**
 * Copies of a photo, each half as wide as the one before, the largest first: drawing one near the size at which it is
 * shown takes a few milliseconds, drawing 20 megapixels into a small view takes more than a tenth of a second.
 * @throws when it is damaged
 */
export async function makeCopies(blob: Blob): Promise<ImageBitmap[]> {
  const photo = await openPhoto(blob);
  const shrink = Math.sqrt(MOST_PIXELS / (photo.width * photo.height));
  const copies = [shrink < 1 ? await resized(photo, shrink) : photo];
  for (let last = copies[0]!; last.width * last.height > FEW_PIXELS; last = copies.at(-1)!) {
    copies.push(await resized(last, 0.5));
  }
  return copies;
}

const resized = (photo: ImageBitmap, scale: number): Promise<ImageBitmap> =>
  createImageBitmap(photo, {
    resizeWidth: Math.max(1, Math.round(photo.width * scale)),
    resizeHeight: Math.max(1, Math.round(photo.height * scale)),
    resizeQuality: 'medium',
  });

/** The smallest copy that is no coarser than it is shown; the largest where all are. */
export function copyFor<T extends { readonly width: number }>(copies: readonly T[], shownWidthPx: number): T {
  return copies.findLast((copy) => copy.width >= shownWidthPx) ?? copies[0]!;
}
