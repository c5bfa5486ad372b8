import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Problem } from '../problem.ts';
import type { Metres } from './types.ts';

const METRES_IN: Readonly<Record<string, number>> = {
  m: 1,
  cm: 0.01,
  mm: 0.001,
  ft: 0.3048,
  in: 0.0254,
};

/** The many ways people write a unit, and the one we know it by. */
const SPELLINGS: Readonly<Record<string, string>> = {
  '': '',
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  cm: 'cm',
  mm: 'mm',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  '′': 'ft',
  '’': 'ft',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "''": 'in',
};

const NUMBER = String.raw`\d+(?:[.,]\d+)?|[.,]\d+`;
const PART = new RegExp(
  String.raw`^\s*(?:(\d+)\s+)?(?:(\d+)\s*/\s*(\d+)|(${NUMBER}))\s*(''|[a-zA-Z]+|["'′’″”])?\s*-?`,
);

/**
 * Reads a length as people type it: "3.45", "3,45", "3450mm", "11'4\"", "11 ft 4 in", "11' 4 1/2\"", "7 1/2 in".
 * A number without a unit is in `bare` (metres unless told otherwise); inches after feet may leave out their mark.
 *
 * @returns the length in metres, exactly as typed (no rounding), or a problem that says what can be typed.
 */
export function parseLength(text: string, bare: 'm' | 'ft' = 'm'): Result<Metres, Problem> {
  const refuse = () => fail({ code: 'length/unreadable', text } as const);
  let rest = text.trim();
  if (rest === '') return refuse();
  const parts: Array<{ value: number; unit: string }> = [];
  while (rest !== '') {
    const match = PART.exec(rest);
    if (!match || match[0] === '') return refuse();
    const [all, whole, top, bottom, plain, spelt] = match;
    if (whole !== undefined && top === undefined) return refuse();
    const value =
      top !== undefined
        ? Number(whole ?? 0) + Number(top) / Number(bottom)
        : Number((plain ?? '').replace(',', '.'));
    const unit = SPELLINGS[(spelt ?? '').toLowerCase()];
    if (unit === undefined || !Number.isFinite(value)) return refuse();
    parts.push({ value, unit });
    rest = rest.slice(all.length).trim();
  }
  const [first, second] = parts;
  if (!first || parts.length > 2) return refuse();
  const unit = first.unit || bare;
  if (!second) return positive(first.value * METRES_IN[unit]!, text);
  // Only feet go before a second part, and only inches after them.
  if (unit !== 'ft' || (second.unit !== 'in' && second.unit !== '')) return refuse();
  return positive(first.value * METRES_IN.ft! + second.value * METRES_IN.in!, text);
}

const positive = (lengthM: number, text: string): Result<Metres, Problem> =>
  lengthM > 0 && lengthM < 1e5 ? ok(lengthM) : fail({ code: 'length/out-of-range', text });
