import { applyMatrix, distort, type Lens, type Matrix3 } from '../../geometry/index.ts';

/** How a straight picture is taken out of a photo. */
export interface Warp {
  /** Size of the straight picture in pixels. */
  readonly width: number;
  readonly height: number;
  /** From the straight picture's pixels to those of a photo without bends, and the bends. */
  readonly toPhoto: Matrix3;
  readonly lens: Lens | null;
  /** Pixels that the photo has across where `toPhoto` speaks of them; the photo itself may be a smaller copy. */
  readonly photoWidthPx: number;
}

/** Ground that the photo does not show. */
const BEYOND = 238;

/** The straight picture, as a JPEG. */
export async function straighten(photo: ImageBitmap, warp: Warp): Promise<Blob> {
  const source = new OffscreenCanvas(photo.width, photo.height).getContext('2d', {
    willReadFrequently: true,
  })!;
  source.drawImage(photo, 0, 0);
  const straight = new ImageData(warp.width, warp.height);
  fill(straight, source.getImageData(0, 0, photo.width, photo.height), warp);
  const canvas = new OffscreenCanvas(warp.width, warp.height);
  canvas.getContext('2d')!.putImageData(straight, 0, 0);
  return canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
}

/** Anything with rows of four bytes a pixel, as `ImageData`. */
interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/** Each pixel from the four of the photo about where it comes from. */
export function fill(straight: Pixels, photo: Pixels, { toPhoto, lens, photoWidthPx }: Warp): void {
  const { data } = straight;
  const scale = photo.width / photoWidthPx;
  for (let v = 0; v < straight.height; v++) {
    for (let u = 0; u < straight.width; u++) {
      const p = applyMatrix(toPhoto, { x: u + 0.5, y: v + 0.5 });
      const q = lens ? distort(lens, p) : p;
      const at = (v * straight.width + u) * 4;
      data[at + 3] = 255;
      const [x, y] = [q.x * scale - 0.5, q.y * scale - 0.5];
      const [i, j] = [Math.floor(x), Math.floor(y)];
      if (!(i >= 0 && j >= 0 && i + 1 < photo.width && j + 1 < photo.height)) {
        data.fill(BEYOND, at, at + 3);
        continue;
      }
      const [fx, fy] = [x - i, y - j];
      const a = (j * photo.width + i) * 4;
      const b = a + photo.width * 4;
      for (let c = 0; c < 3; c++) {
        const above = photo.data[a + c]! * (1 - fx) + photo.data[a + 4 + c]! * fx;
        const below = photo.data[b + c]! * (1 - fx) + photo.data[b + 4 + c]! * fx;
        data[at + c] = above * (1 - fy) + below * fy;
      }
    }
  }
}
