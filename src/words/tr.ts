import { language } from './language.ts';
import spanish from './spanish.json';

/** Texts of another language, by the English text; `{0}`, `{1}` … may stand in another order there. */
export type Catalogue = Readonly<Record<string, string>>;

const CATALOGUE: Catalogue | undefined = { en: undefined, es: spanish }[language];

/** A text with `{0}`, `{1}` … where values go: how a catalogue names what stands in the source. */
export const keyOf = (english: readonly string[]): string =>
  english.reduce((key, part, i) => `${key}{${i - 1}}${part}`);

/**
 * Tags an English text for people and gives it in the language of this page, worker or command:
 * tr`There is no sheet “${name}” in this job.` What the catalogue lacks stays English; a test sees to it
 * that nothing lacks.
 */
export const tr = (english: TemplateStringsArray, ...values: ReadonlyArray<string | number>): string =>
  partsOf(english, values).join('');

/** The same in pieces, for values that are more than text: what stands between them, and they in their places. */
export function partsOf<T>(english: TemplateStringsArray, values: readonly T[]): Array<string | T> {
  const text = CATALOGUE?.[keyOf(english)];
  if (text === undefined) return english.flatMap((part, i) => (i === 0 ? [part] : [values[i - 1]!, part]));
  // Every second piece is the number of a value.
  return text.split(/\{(\d+)\}/).map((piece, i) => (i % 2 === 1 ? values[Number(piece)]! : piece));
}
