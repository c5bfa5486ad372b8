import { fail, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { importDocument, looksLikePdf } from './document.ts';
import { DRAWING_UNITS } from './drawing.ts';
import { importDrawing } from './drawing-import.ts';
import { readDxf } from './dxf/dxf.ts';
import { looksLikeDxf } from './dxf/tags.ts';
import type { Imported, NewId } from './imported.ts';
import type { ImportOptions } from './options.ts';
import { importPicture } from './picture-import.ts';
import { readGeoJson } from './places/geojson.ts';
import type { Places } from './places/places.ts';
import { readGpx, readKml } from './places/tracks.ts';
import { importPlaces } from './places-import.ts';
import { looksLikeSvg, readSvg } from './svg/svg.ts';

export type { Layer } from './drawing.ts';
export type { Imported } from './imported.ts';
export type { ImportOptions } from './options.ts';

/** A file as it came, with its text where it is text. */
interface Given {
  readonly bytes: Uint8Array;
  readonly file: string;
  readonly text: () => string;
  readonly start: string;
  readonly options: ImportOptions;
  readonly newId: NewId;
}

/** One kind of file: what it looks like, and how it becomes a sheet. */
interface ImportKind {
  readonly name: string;
  readonly looksLike: (given: Given) => boolean;
  readonly read: (given: Given) => Result<Imported, Problem> | Promise<Result<Imported, Problem>>;
}

const placesKind = (
  name: string,
  looksLike: (given: Given) => boolean,
  read: (text: string, file: string) => Result<Places, Problem>,
): ImportKind => ({
  name,
  looksLike,
  read: ({ text, file, newId }) => {
    const places = read(text(), file);
    return places.ok ? importPlaces(places.value, file, newId) : places;
  },
});

/** Every kind of file that can be opened to measure on, told apart by what is in it. */
const KINDS: readonly ImportKind[] = [
  {
    name: 'PDF',
    looksLike: ({ bytes, file }) => looksLikePdf(bytes) || /\.pdf$/i.test(file),
    read: ({ bytes, file, options, newId }) => importDocument(bytes, file, options, newId),
  },
  {
    name: 'DXF',
    looksLike: ({ bytes, file }) => looksLikeDxf(bytes) || /\.dxf$/i.test(file),
    read: ({ bytes, file, options, newId }) => {
      const drawing = readDxf(bytes, file);
      return drawing.ok ? importDrawing(drawing.value, file, options, newId) : drawing;
    },
  },
  placesKind('GPX', ({ start }) => /<(\w+:)?gpx[\s>]/.test(start), readGpx),
  placesKind('KML', ({ start, file }) => /<(\w+:)?kml[\s>]/.test(start) || /\.kml$/i.test(file), readKml),
  {
    name: 'SVG',
    looksLike: ({ start, file }) => looksLikeSvg(start) || /\.svgz?$/i.test(file),
    read: ({ text, file, options, newId }) => {
      const drawing = readSvg(text(), file);
      return drawing.ok ? importDrawing(drawing.value, file, options, newId) : drawing;
    },
  },
  placesKind(
    'GeoJSON',
    ({ start, file }) => /^\uFEFF?\s*\{/.test(start) || /\.(geo)?json$/i.test(file),
    readGeoJson,
  ),
  {
    name: 'picture',
    looksLike: () => true,
    read: ({ bytes, file, newId }) => importPicture(bytes, file, newId),
  },
];

/** What a file unpacks to at most. */
const LARGEST_TEXT_BYTES = 200_000_000;

/**
 * Reads a file to measure on, by content rather than by ending: what it would add to a job, or one sentence why not.
 * Nothing is half read.
 */
export async function importFile(
  given: Uint8Array,
  file: string,
  options: ImportOptions,
  newId: NewId,
): Promise<Result<Imported, Problem>> {
  const bad = optionProblem(options);
  if (bad) return fail(bad);
  const bytes = await unpacked(given);
  if (!bytes) return fail({ code: 'drawing/too-large', file });
  const start = new TextDecoder().decode(bytes.subarray(0, 4000));
  const text = () => new TextDecoder().decode(bytes);
  const all: Given = { bytes, file, text, start, options, newId };
  const kind = KINDS.find((k) => k.looksLike(all))!;
  const read = await kind.read(all);
  const unknown =
    !read.ok &&
    read.problem.code === 'image/not-an-image' &&
    !/\.(png|jpe?g|webp|heic|heif|avif)$/i.test(file);
  return unknown ? fail({ code: 'import/kind', file }) : read;
}

function optionProblem({ units, ratio, page }: ImportOptions): Problem | null {
  if (units !== undefined && !Object.hasOwn(DRAWING_UNITS, units)) {
    return {
      code: 'import/option',
      option: tr`The unit`,
      expected: tr`one of ${Object.keys(DRAWING_UNITS).join(', ')}`,
    };
  }
  if (ratio !== undefined && !(ratio >= 0.001 && ratio <= 1e6)) {
    return {
      code: 'import/option',
      option: tr`The scale 1 : N`,
      expected: tr`a number above nought, such as 100`,
    };
  }
  if (page !== undefined && !(Number.isInteger(page) && page >= 1)) {
    return { code: 'import/option', option: tr`The page`, expected: tr`a whole number from 1` };
  }
  return null;
}

/** A file unpacked where it is packed by gzip; null when it unpacks to more than any drawing. */
async function unpacked(bytes: Uint8Array): Promise<Uint8Array | null> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const stream = new Blob([bytes as Uint8Array<ArrayBuffer>])
    .stream()
    .pipeThrough(new DecompressionStream('gzip'));
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > LARGEST_TEXT_BYTES) {
        await reader.cancel();
        return null;
      }
      parts.push(value);
    }
  } catch {
    return bytes;
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
