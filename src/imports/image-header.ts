import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';

/** What a picture file says of itself before anything is decoded. */
export interface ImageHeader {
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp' | 'image/heic' | 'image/avif';
  /** Size as it is shown, after the camera's note to turn it. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/** More than this no browser shows: pixels on a side, and in all. */
const MAX_SIDE_PX = 16_000;
export const MAX_PIXELS = 100_000_000;

/**
 * Reads a PNG, JPEG, WebP, HEIC or AVIF file's kind and size from its first bytes and checks that its structure reaches
 * its end, so that a picture that claims too much, or breaks off, is refused before it is decoded.
 * Sources: PNG (W3C, third edition) 5.3 chunk layout; JPEG (ITU-T T.81) B.1 markers; WebP (RFC 9649) 2; HEIF
 * (ISO/IEC 23008-12) ispe and irot boxes and Exif 2.3 tag 0x0112, from memory.
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
  if (view.byteLength >= 12 && view.getUint32(4) === 0x66747970) return readHeif;
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
  let turned = false;
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
    if (marker === 0xe1) turned ||= isTurned(view, at + 4, length - 2);
    at += 2 + length;
    if (marker === 0xda)
      return size && { type: 'image/jpeg', ...upright(size, turned), whole: endsAfter(view, at) };
  }
  return size && { type: 'image/jpeg', ...upright(size, turned), whole: false };
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

interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

const upright = ({ widthPx, heightPx }: Size, turned: boolean): Size =>
  turned ? { widthPx: heightPx, heightPx: widthPx } : { widthPx, heightPx };

/** Whether an Exif segment says that the picture lies on its side: orientation 5 to 8. */
function isTurned(view: DataView, start: number, length: number): boolean {
  const end = Math.min(view.byteLength, start + length);
  if (end < start + 14 || view.getUint32(start) !== 0x45786966) return false;
  const tiff = start + 6;
  const little = view.getUint16(tiff) === 0x4949;
  const directory = tiff + view.getUint32(tiff + 4, little);
  if (directory + 2 > end) return false;
  const count = view.getUint16(directory, little);
  for (let i = 0; i < count; i++) {
    const entry = directory + 2 + i * 12;
    if (entry + 12 > end) return false;
    if (view.getUint16(entry, little) !== 0x0112) continue;
    const orientation = view.getUint16(entry + 8, little);
    return orientation >= 5 && orientation <= 8;
  }
  return false;
}

/** Boxes that hold what is looked for. */
const CONTAINERS = new Set([0x6d657461, 0x69707270, 0x6970636f]);

/** HEIC and AVIF: the largest picture in the file, turned as its properties say. */
function readHeif(view: DataView): Found | null {
  const brand = view.getUint32(8);
  const avif = brand === 0x61766966 || brand === 0x61766973;
  let size: Size | null = null;
  let turned = false;
  let whole = true;
  const walk = (from: number, to: number): void => {
    let at = from;
    while (at + 8 <= to) {
      let length = view.getUint32(at);
      const type = view.getUint32(at + 4);
      let body = at + 8;
      if (length === 1 && at + 16 <= to) {
        length = Number(view.getBigUint64(at + 8));
        body = at + 16;
      } else if (length === 0) length = to - at;
      if (length < 8 || at + length > to) {
        whole = false;
        return;
      }
      // A meta box has four bytes of version and flags before its children.
      if (CONTAINERS.has(type)) walk(type === 0x6d657461 ? body + 4 : body, at + length);
      else if (type === 0x69737065 && body + 12 <= at + length) {
        const found = { widthPx: view.getUint32(body + 4), heightPx: view.getUint32(body + 8) };
        if (!size || found.widthPx * found.heightPx > size.widthPx * size.heightPx) size = found;
      } else if (type === 0x69726f74 && body < at + length) turned ||= (view.getUint8(body) & 1) === 1;
      at += length;
    }
  };
  walk(0, view.byteLength);
  const found = size as Size | null;
  return found && { type: avif ? 'image/avif' : 'image/heic', ...upright(found, turned), whole };
}
