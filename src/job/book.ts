import type { z } from 'zod';
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

const shape = jobFileSchema.shape.job.shape;

/** A kept book; what cannot be read of it is left out, entry by entry, and nothing else. */
export function readBook(text: string): Book {
  let kept: unknown;
  try {
    kept = JSON.parse(text);
  } catch {
    return emptyBook;
  }
  if (typeof kept !== 'object' || kept === null) return emptyBook;
  const { trials, prices, packs, values, settings } = kept as Record<string, unknown>;
  return {
    trials: sound(shape.trials, trials),
    prices: sound(shape.prices, prices),
    packs: sound(shape.packs, packs),
    values: sound(shape.values, values),
    settings: { ...emptyBook.settings, ...sound(shape.settings.partial(), settings) },
  } as Book;
}

/** The entries of a map that its schema takes one by one. */
function sound(schema: z.ZodType, map: unknown): object {
  if (typeof map !== 'object' || map === null || Array.isArray(map)) return {};
  return Object.fromEntries(
    Object.entries(map).filter(([key, value]) => schema.safeParse({ [key]: value }).success),
  );
}
