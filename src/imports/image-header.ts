import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';

/** What a picture file says of itself before anything is decoded. */
export interface ImageHeader {
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp';
  readonly widthPx: number;
  readonly heightPx: number;
}

/** More than this no browser shows: pixels on a side, and in all. */
const MAX_SIDE_PX = 16_000;
export const MAX_PIXELS = 100_000_000;

/**
 * Reads a PNG, JPEG or WebP file's kind and size from its first bytes and checks that its structure reaches its
 * end, so that a picture that claims too much, or breaks off, is refused before it is decoded.
 * Sources: PNG (W3C, third edition) 5.3 chunk layout; JPEG (ITU-T T.81) B.1 markers; WebP (RFC 9649) 2.
 */
export function readImageHeader(bytes: Uint8Array, file: string): Result<ImageHeader, Problem> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const read = readerFor(view);
  if (!read) return fail({ code: 'image/not-an-image', file });
  const header = read(view);
  if (!header) return fail({ code: 'image/broken', file });
  const { widthPx: width, heightPx: height } = header;
  if (width === 0 || height === 0) return fail({ code: 'image/broken', file });
  if (width > MAX_SIDE_PX || height > MAX_SIDE_PX || width * height > MAX_PIXELS) {
    return fail({ code: 'image/too-large', file, width, height });
  }
  return header.whole
    ? ok({ type: header.type, widthPx: width, heightPx: height })
    : fail({ code: 'image/broken', file });
}

/** A header and whether the file goes on to its proper end. */
type Found = ImageHeader & { readonly whole: boolean };
type Reader = (view: DataView) => Found | null;

function readerFor(view: DataView): Reader | null {
  if (view.byteLength >= 8 && view.getUint32(0) === 0x89504e47 && view.getUint32(4) === 0x0d0a1a0a)
    return readPng;
  if (view.byteLength >= 3 && view.getUint16(0) === 0xffd8 && view.getUint8(2) === 0xff) return readJpeg;
  if (view.byteLength >= 12 && view.getUint32(0) === 0x52494646 && view.getUint32(8) === 0x57454250)
    return readWebp;
  return null;
}

function readPng(view: DataView): Found | null {
  if (view.byteLength < 24 || view.getUint32(12) !== 0x49484452) return null;
  const header = { type: 'image/png', widthPx: view.getUint32(16), heightPx: view.getUint32(20) } as const;
  let at = 8;
  while (at + 12 <= view.byteLength) {
    const length = view.getUint32(at);
    const isEnd = view.getUint32(at + 4) === 0x49454e44;
    at += 12 + length;
    if (isEnd) return { ...header, whole: at <= view.byteLength };
  }
  return { ...header, whole: false };
}

function readJpeg(view: DataView): Found | null {
  let at = 2;
  let size: { widthPx: number; heightPx: number } | null = null;
  while (at + 4 <= view.byteLength) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame && at + 9 <= view.byteLength) {
      size = { heightPx: view.getUint16(at + 5), widthPx: view.getUint16(at + 7) };
    }
    at += 2 + length;
    if (marker === 0xda) return size && { type: 'image/jpeg', ...size, whole: endsAfter(view, at) };
  }
  return size && { type: 'image/jpeg', ...size, whole: false };
}

/** Whether the end-of-image marker comes after the picture's data; phones append more behind it. */
function endsAfter(view: DataView, start: number): boolean {
  for (let at = view.byteLength - 2; at >= start; at--) if (view.getUint16(at) === 0xffd9) return true;
  return false;
}

function readWebp(view: DataView): Found | null {
  if (view.byteLength < 30) return null;
  const whole = view.getUint32(4, true) + 8 <= view.byteLength;
  const type = 'image/webp';
  const u24 = (at: number) => view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
  switch (view.getUint32(12)) {
    case 0x56503858: // VP8X
      return { type, widthPx: u24(24) + 1, heightPx: u24(27) + 1, whole };
    case 0x5650384c: {
      // VP8L
      const bits = view.getUint32(21, true);
      return { type, widthPx: (bits & 0x3fff) + 1, heightPx: ((bits >>> 14) & 0x3fff) + 1, whole };
    }
    case 0x56503820: // VP8
      return {
        type,
        widthPx: view.getUint16(26, true) & 0x3fff,
        heightPx: view.getUint16(28, true) & 0x3fff,
        whole,
      };
    default:
      return null;
  }
}
