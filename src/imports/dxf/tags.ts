import { fail, ok, type Result } from '../../../geometry/result.ts';
import type { Problem } from '../../problem.ts';

/** A group code and its value, as DXF files are made of. */
export interface Tag {
  readonly code: number;
  readonly value: string | number;
}

const SENTINEL = 'AutoCAD Binary DXF\r\n\u001a\0';

/** More than this is no plan of a yard. */
const MOST_TAGS = 5_000_000;

/** Whether a file is DXF by its first bytes: the binary sentinel, or a group code 0 or 999 before a section. */
export function looksLikeDxf(bytes: Uint8Array): boolean {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 400));
  return (
    start.startsWith(SENTINEL.slice(0, 18)) ||
    /^\uFEFF?\s*(999\s*\r?\n[^\n]*\n\s*)*0\s*\r?\nSECTION/.test(start.replace(/^ï»¿/, ''))
  );
}

/**
 * Reads a DXF file, text or binary, to its tags. Text is decoded by the file's own codepage; lines that cannot be a
 * group code are skipped, so that a damaged file gives what is whole in it.
 * Source: DXF reference (published by the format's maker, group code value types; binary files), from memory.
 */
export function readTags(bytes: Uint8Array, file: string): Result<Tag[], Problem> {
  const isBinary = new TextDecoder('latin1').decode(bytes.subarray(0, SENTINEL.length)) === SENTINEL;
  const tags = isBinary ? binaryTags(bytes) : textTags(bytes);
  if (!tags) return fail({ code: 'drawing/too-large', file });
  return tags.length > 0 ? ok(tags) : fail({ code: 'drawing/broken', file });
}

type Kind = 'text' | 'double' | 'int16' | 'int32' | 'int64' | 'byte' | 'chunk';

/** What kind of value follows a group code. */
function kindOf(code: number): Kind {
  if (code === 1004 || (code >= 310 && code <= 319)) return 'chunk';
  if (code === 1071 || within(code, 90, 99) || within(code, 420, 429) || within(code, 440, 459))
    return 'int32';
  if (within(code, 160, 169)) return 'int64';
  if (within(code, 290, 299)) return 'byte';
  if (
    within(code, 10, 59) ||
    within(code, 110, 149) ||
    within(code, 210, 239) ||
    within(code, 460, 469) ||
    within(code, 1010, 1059)
  )
    return 'double';
  if (
    within(code, 60, 79) ||
    within(code, 170, 179) ||
    within(code, 270, 289) ||
    within(code, 370, 389) ||
    within(code, 400, 409) ||
    within(code, 1060, 1070)
  )
    return 'int16';
  return 'text';
}

const within = (v: number, low: number, high: number): boolean => v >= low && v <= high;

function textTags(bytes: Uint8Array): Tag[] | null {
  const rough = new TextDecoder('latin1').decode(bytes.subarray(0, 20_000));
  const text = new TextDecoder(encodingOf(rough)).decode(bytes);
  const lines = text.split(/\r\n|\n|\r/);
  if (lines.length > 2 * MOST_TAGS) return null;
  const tags: Tag[] = [];
  let i = 0;
  while (i + 1 < lines.length) {
    const word = lines[i]!.trim();
    // Where a line was lost the codes and values have changed places: move on by one until they fit again.
    if (!/^-?\d{1,4}$/.test(word)) {
      i += 1;
      continue;
    }
    const code = Number(word);
    const raw = lines[i + 1]!;
    const kind = kindOf(code);
    tags.push({ code, value: kind === 'text' || kind === 'chunk' ? raw.trim() : Number(raw) });
    i += 2;
  }
  return tags;
}

/** The encoding of a text file: UTF-8 from the version of 2007 on, before that the codepage it names. */
function encodingOf(start: string): string {
  const version = /\$ACADVER\s*\r?\n\s*1\s*\r?\n\s*(AC\d{4})/.exec(start)?.[1] ?? 'AC1009';
  if (version >= 'AC1021') return 'utf-8';
  const page = /\$DWGCODEPAGE\s*\r?\n\s*3\s*\r?\n\s*(\S+)/.exec(start)?.[1]?.toLowerCase() ?? '';
  return encodingNamed(page);
}

function encodingNamed(page: string): string {
  const number = /(\d{3,5})$/.exec(page)?.[1] ?? '1252';
  const named: Readonly<Record<string, string>> = {
    932: 'shift_jis',
    936: 'gbk',
    949: 'euc-kr',
    950: 'big5',
    874: 'windows-874',
    866: 'ibm866',
  };
  const label = named[number] ?? (within(Number(number), 1250, 1258) ? `windows-${number}` : 'windows-1252');
  try {
    new TextDecoder(label);
    return label;
  } catch {
    return 'windows-1252';
  }
}

function binaryTags(bytes: Uint8Array): Tag[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tags: Tag[] = [];
  let at = SENTINEL.length;
  // The oldest files have codes of one byte: the first tag is 0 SECTION, and the S comes at once.
  const short = view.byteLength > at + 1 && view.getUint8(at + 1) === 0x53;
  let decoder = new TextDecoder('windows-1252');
  let page = false;
  let version = false;
  try {
    while (at < view.byteLength) {
      let code: number;
      if (short) {
        code = view.getUint8(at);
        at += 1;
        if (code === 255) {
          code = view.getInt16(at, true);
          at += 2;
        }
      } else {
        code = view.getInt16(at, true);
        at += 2;
      }
      const [value, next] = binaryValue(view, bytes, at, kindOf(code), decoder);
      at = next;
      tags.push({ code, value });
      if (tags.length > MOST_TAGS) return null;
      if (version && code === 1 && String(value) >= 'AC1021') decoder = new TextDecoder('utf-8');
      if (page && code === 3 && decoder.encoding !== 'utf-8')
        decoder = new TextDecoder(encodingNamed(String(value).toLowerCase()));
      version = code === 9 && value === '$ACADVER';
      page = code === 9 && value === '$DWGCODEPAGE';
      if (code === 0 && value === 'EOF') break;
    }
  } catch {
    // It breaks off: what was read so far is whole.
  }
  return tags;
}

function binaryValue(
  view: DataView,
  bytes: Uint8Array,
  at: number,
  kind: Kind,
  decoder: TextDecoder,
): [string | number, number] {
  switch (kind) {
    case 'double':
      return [view.getFloat64(at, true), at + 8];
    case 'int16':
      return [view.getInt16(at, true), at + 2];
    case 'int32':
      return [view.getInt32(at, true), at + 4];
    case 'int64':
      return [Number(view.getBigInt64(at, true)), at + 8];
    case 'byte':
      return [view.getUint8(at), at + 1];
    case 'chunk':
      return ['', at + 1 + view.getUint8(at)];
    case 'text': {
      const end = bytes.indexOf(0, at);
      if (end < 0) throw new RangeError('text without end');
      return [decoder.decode(bytes.subarray(at, end)), end + 1];
    }
  }
}
