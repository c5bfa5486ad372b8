import { expect, test } from 'vitest';
import { LANGUAGE_NAMES, LANGUAGES } from '../../src/words/language.ts';
import spanish from '../../src/words/spanish.json';
import { sourceFiles, textsOf } from './texts.ts';

const files = sourceFiles().map(textsOf);
const tagged = files.flatMap((f) => f.tagged);
const catalogue: Readonly<Record<string, string>> = spanish;

const valuesIn = (text: string) => [...text.matchAll(/\{(\d+)\}/g)].map((m) => Number(m[1])).sort();
const edges = (text: string) => [/^\s*/.exec(text)![0], /\s*$/.exec(text)![0]];

test('every text for people has its Spanish, and the catalogue holds no other', () => {
  const keys = new Set(tagged.map((t) => t.key));
  expect(tagged.filter((t) => !(t.key in catalogue)).map((t) => `${t.where} ${t.key}`)).toEqual([]);
  expect(Object.keys(catalogue).filter((key) => !keys.has(key))).toEqual([]);
});

test('what stands on a screen is tagged, so that it can be translated', () => {
  expect(files.flatMap((f) => f.untagged)).toEqual([]);
});

test('each translation takes the values of its text, each once, and keeps its outer spaces', () => {
  for (const { key, values } of tagged) {
    const text = catalogue[key]!;
    expect(valuesIn(text), key).toEqual(Array.from({ length: values }, (_, i) => i));
    expect(edges(text), key).toEqual(edges(key));
    expect(text.trim(), key).not.toBe('');
  }
});

// Numerals of instruments, laws and sizes are what they are in any language: none may be lost or misread.
test('the numbers in a text are the numbers in its translation', () => {
  const numbers = (text: string) => (text.replace(/\{\d+\}/g, '').match(/\d+(?:[.,:]\d+)*/g) ?? []).sort();
  for (const [key, text] of Object.entries(catalogue)) expect(numbers(text), key).toEqual(numbers(key));
});

test('a text differs from its English, but for names, titles and symbols that are the same in both', () => {
  const same = Object.entries(catalogue).filter(([key, text]) => key === text);
  expect(same.length / Object.keys(catalogue).length).toBeLessThan(0.03);
});

test('each language that can be chosen says its own name', () => {
  expect(LANGUAGES.map((l) => LANGUAGE_NAMES[l])).toEqual(['English', 'Español']);
});
