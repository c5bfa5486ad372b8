import { expect, test } from 'vitest';
import {
  bookAfter,
  emptyBook,
  FIRST_NUMBER,
  jobFromBook,
  joinedBooks,
  looksLikeBook,
  offerNumber,
  readBook,
  writeBookFile,
} from '../../src/job/book.ts';
import { readJobFile, writeJobFile } from '../../src/job/file.ts';
import { emptyJob } from '../../src/job/types.ts';
import { edited } from '../coating/scene.ts';

const start = emptyJob('a', 'A');
const trial = {
  id: 't',
  texture: 'stipple',
  coat: 'first',
  areaM2: 4,
  usedL: 1,
  rateM2PerL: 8,
  bare: true,
  thinning: 0,
  note: '',
} as const;

test('what is entered in one job is there in the next, and a later job can be saved and opened', () => {
  const now = edited(
    start,
    { type: 'set-price', args: { key: 'labour.hour', cents: 5000 } },
    { type: 'add-trial', args: trial },
    { type: 'change-settings', args: { currency: 'NZD' } },
    { type: 'set-value', args: { key: 'loss.smooth', value: 0.08 } },
  );
  const next = jobFromBook('b', 'B', readBook(JSON.stringify(bookAfter(emptyBook, start, now))));
  expect(next).toMatchObject({
    id: 'b',
    prices: { 'labour.hour': 5000 },
    trials: { t: trial },
    values: { 'loss.smooth': 0.08 },
    settings: { currency: 'NZD', units: 'metric' },
  });
  const kept = readJobFile(writeJobFile({ job: next, images: {} }), 'b.json');
  expect(kept.ok && kept.value.job).toEqual(next);
});

test('only what changed is carried: an old job that is touched does not bring its other prices back', () => {
  const book = { ...emptyBook, prices: { tape: 900, tray: 700 } };
  const old = { ...start, prices: { tape: 500, brush: 100 } };
  const now = edited(old, { type: 'set-price', args: { key: 'brush', cents: 120 } });
  expect(bookAfter(book, old, now).prices).toEqual({ tape: 900, tray: 700, brush: 120 });
  const without = edited(now, { type: 'set-price', args: { key: 'tape', cents: null } });
  expect(bookAfter(book, now, without).prices).toEqual({ tray: 700 });
});

test('a trial that is struck out, or undone, is struck out of the book', () => {
  const now = edited(start, { type: 'add-trial', args: trial });
  const book = bookAfter(emptyBook, start, now);
  expect(bookAfter(book, now, start).trials).toEqual({});
});

test('a book that cannot be read is an empty one, and one bad entry costs only itself', () => {
  for (const text of ['', '{', '[]', 'null', '{"values":{"a":"b"},"settings":{}}']) {
    expect(readBook(text)).toMatchObject(emptyBook);
  }
  const book = readBook(
    JSON.stringify({
      prices: { tape: 900, tray: 1.5 },
      trials: { t: trial, u: { ...trial, id: 'u', note: 'x'.repeat(501) } },
      settings: { currency: 'dollars', units: 'us' },
    }),
  );
  expect(book).toMatchObject({ prices: { tape: 900 }, trials: { t: trial }, settings: { units: 'us' } });
  expect(Object.keys(book.trials!)).toEqual(['t']);
  expect(book.settings.currency).toBeUndefined();
});

test('offer numbers have four digits at least, and what was chosen before them', () => {
  expect(offerNumber(FIRST_NUMBER)).toBe('0001');
  expect(offerNumber({ prefix: 'Q-', next: 27 })).toBe('Q-0027');
  expect(offerNumber({ prefix: '', next: 12345 })).toBe('12345');
});

test('the numbering is the book’s own: a change of a job keeps it, a new job does not get it', () => {
  const numbering = { prefix: 'A', next: 7 };
  const book = { ...emptyBook, numbering };
  const now = edited(start, { type: 'set-price', args: { key: 'tape', cents: 900 } });
  expect(bookAfter(book, start, now).numbering).toEqual(numbering);
  expect(Object.hasOwn(bookAfter(emptyBook, start, now), 'numbering')).toBe(false);
  expect(Object.hasOwn(jobFromBook('b', 'B', book), 'numbering')).toBe(false);
});

test('a letterhead is carried whole, or not at all', () => {
  const business = { type: 'set-business', args: { name: 'Slab Works', address: 'Lane 1' } } as const;
  const now = edited(start, business as never);
  const book = bookAfter(emptyBook, start, now);
  expect(book.business).toMatchObject({ name: 'Slab Works', address: 'Lane 1' });
  expect(Object.keys(book.business!).length).toBeGreaterThan(2);
  expect(Object.hasOwn(bookAfter(emptyBook, start, start), 'business')).toBe(false);
});

test('two books in one: the second’s word goes first, and no number is given again', () => {
  const one = {
    ...emptyBook,
    prices: { tape: 900, tray: 700 },
    values: { 'loss.smooth': 0.05 },
    numbering: { prefix: 'A', next: 12 },
  };
  const two = { ...emptyBook, prices: { tape: 500 }, numbering: { prefix: 'B', next: 4 } };
  const both = joinedBooks(one, two);
  expect(both.prices).toEqual({ tape: 500, tray: 700 });
  expect(both.values).toEqual({ 'loss.smooth': 0.05 });
  expect(both.numbering).toEqual({ prefix: 'B', next: 12 });
  expect(joinedBooks(two, one).numbering).toEqual({ prefix: 'A', next: 12 });
  expect(joinedBooks(one, emptyBook).numbering).toEqual({ prefix: 'A', next: 12 });
  expect(Object.hasOwn(joinedBooks(emptyBook, emptyBook), 'numbering')).toBe(false);
});

test('a book saved to a file is known by its text and read back as it was', () => {
  const book = { ...emptyBook, prices: { tape: 900 }, numbering: { prefix: 'A', next: 3 } };
  const text = writeBookFile(book);
  expect(looksLikeBook(text)).toBe(true);
  expect(looksLikeBook('{"format":"slabwright job"}')).toBe(false);
  expect(readBook(text)).toMatchObject({ prices: { tape: 900 }, numbering: { prefix: 'A', next: 3 } });
});

test('a numbering or a letterhead that cannot be is left out, the rest is read', () => {
  for (const numbering of [
    { prefix: 'x'.repeat(41), next: 1 },
    { prefix: '', next: -1 },
    { prefix: '', next: 1.5 },
    7,
  ])
    expect(Object.hasOwn(readBook(JSON.stringify({ numbering })), 'numbering')).toBe(false);
  const book = readBook(JSON.stringify({ business: { name: 7 }, prices: { tape: 900 } }));
  expect(Object.hasOwn(book, 'business')).toBe(false);
  expect(book.prices).toEqual({ tape: 900 });
  expect(readBook(JSON.stringify({ business: { name: 'Slab Works' } })).business).toMatchObject({
    name: 'Slab Works',
  });
});
