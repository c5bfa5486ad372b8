import { z } from 'zod';
import { jobFileSchema } from './schema.ts';
import { emptyJob, type Id, type Job } from './types.ts';

/** What a person enters once and wants in every later job: trials, prices, packs, values and settings. */
export type Book = Pick<Job, 'trials' | 'prices' | 'packs' | 'values' | 'settings'>;

/** A book with nothing in it. */
export const emptyBook: Book = { values: {}, settings: emptyJob('', '').settings };

/** The book after a change of a job: what was changed in the job is changed in it, and nothing else. */
export function bookAfter(book: Book, before: Job, now: Job): Book {
  return {
    values: merged(book.values, before.values, now.values),
    trials: merged(book.trials, before.trials, now.trials),
    prices: merged(book.prices, before.prices, now.prices),
    packs: merged(book.packs, before.packs, now.packs),
    settings: merged(book.settings, before.settings, now.settings),
  };
}

/** What was set, replaced or taken away between two maps, done to a third. */
function merged<T extends object>(kept: T | undefined, before: T | undefined, now: T | undefined): T {
  const next = { ...kept } as Record<string, unknown>;
  const [was, is] = [(before ?? {}) as Record<string, unknown>, (now ?? {}) as Record<string, unknown>];
  for (const key of Object.keys(was)) if (!Object.hasOwn(is, key)) delete next[key];
  for (const [key, value] of Object.entries(is)) if (was[key] !== value) next[key] = value;
  return next as T;
}

/** A new job that starts with what the book holds. */
export const jobFromBook = (id: Id, name: string, book: Book): Job => ({ ...emptyJob(id, name), ...book });

const jobShape = jobFileSchema.shape.job.shape;
const bookSchema = z.looseObject({
  trials: jobShape.trials,
  prices: jobShape.prices,
  packs: jobShape.packs,
  values: jobShape.values,
  settings: jobShape.settings,
});

/** A kept book; an empty one where it cannot be read. */
export function readBook(text: string): Book {
  try {
    const book = bookSchema.safeParse(JSON.parse(text));
    return book.success ? (book.data as Book) : emptyBook;
  } catch {
    return emptyBook;
  }
}
