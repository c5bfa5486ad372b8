import { expect, test } from 'vitest';
import { bookAfter, emptyBook, jobFromBook, readBook } from '../../src/job/book.ts';
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
