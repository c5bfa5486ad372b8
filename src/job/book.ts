import { z } from 'zod';
import { type Business, NO_BUSINESS } from './paper-types.ts';
import { jobFileSchema } from './schema.ts';
import { emptyJob, type Id, type Job } from './types.ts';

/** How offers are numbered: what stands before the number, and the next one. */
export interface Numbering {
  readonly prefix: string;
  readonly next: number;
}

/** What a person enters once and wants in every later job: trials, prices, packs, values, settings and the letterhead. */
export type Book = Pick<Job, 'trials' | 'prices' | 'packs' | 'values' | 'settings' | 'business'> & {
  /** Of this browser's offers, not of any job: a number is given once. */
  readonly numbering?: Numbering;
};

/** The next offer's number as it is written, of four digits at least. */
export const offerNumber = ({ prefix, next }: Numbering): string =>
  `${prefix}${String(next).padStart(4, '0')}`;

/** Numbers begin at 1, with nothing before them. */
export const FIRST_NUMBER: Numbering = { prefix: '', next: 1 };

/** A book with nothing in it. */
export const emptyBook: Book = { values: {}, settings: emptyJob('', '').settings };

/** The book after a change of a job: what was changed in the job is changed in it, and nothing else. */
export function bookAfter(book: Book, before: Job, now: Job): Book {
  return {
    ...(book.numbering ? { numbering: book.numbering } : {}),
    ...wholeBusiness(merged(book.business, before.business, now.business)),
    values: merged(book.values, before.values, now.values),
    trials: merged(book.trials, before.trials, now.trials),
    prices: merged(book.prices, before.prices, now.prices),
    packs: merged(book.packs, before.packs, now.packs),
    settings: merged(book.settings, before.settings, now.settings),
  };
}

/** A letterhead with all of its fields, or none: half of one could not be opened again. */
const wholeBusiness = (part: Partial<Business>): Pick<Book, 'business'> =>
  Object.keys(part).length === 0 ? {} : { business: { ...NO_BUSINESS, ...part } };

/** What was set, replaced or taken away between two maps, done to a third. */
function merged<T extends object>(kept: T | undefined, before: T | undefined, now: T | undefined): T {
  const next = { ...kept } as Record<string, unknown>;
  const [was, is] = [(before ?? {}) as Record<string, unknown>, (now ?? {}) as Record<string, unknown>];
  for (const key of Object.keys(was)) if (!Object.hasOwn(is, key)) delete next[key];
  for (const [key, value] of Object.entries(is)) if (was[key] !== value) next[key] = value;
  return next as T;
}

/** A new job that starts with what the book holds. */
export function jobFromBook(id: Id, name: string, { numbering: _own, ...book }: Book): Job {
  return { ...emptyJob(id, name), ...book };
}

/** Two books in one: the second's word goes first where both say something, and no number is given again. */
export function joinedBooks(book: Book, other: Book): Book {
  const next = Math.max(book.numbering?.next ?? 1, other.numbering?.next ?? 1);
  const numbered = book.numbering || other.numbering;
  return {
    ...book,
    ...other,
    values: { ...book.values, ...other.values },
    trials: { ...book.trials, ...other.trials },
    prices: { ...book.prices, ...other.prices },
    packs: { ...book.packs, ...other.packs },
    ...(numbered ? { numbering: { ...FIRST_NUMBER, ...book.numbering, ...other.numbering, next } } : {}),
  };
}

const shape = jobFileSchema.shape.job.shape;

const numberingShape = z.object({ prefix: z.string().max(40), next: z.int().min(0).max(1e9) });

const BOOK_FORMAT = 'slabwright book';

/** The book as a file, to keep or to take to another browser. */
export const writeBookFile = (book: Book): string =>
  `${JSON.stringify({ format: BOOK_FORMAT, ...book }, null, 1)}\n`;

/** Whether a text is a book as it was saved to a file. */
export const looksLikeBook = (text: string): boolean => text.slice(0, 200).includes(`"${BOOK_FORMAT}"`);

/** A kept book; what cannot be read of it is left out, entry by entry, and nothing else. */
export function readBook(text: string): Book {
  let kept: unknown;
  try {
    kept = JSON.parse(text);
  } catch {
    return emptyBook;
  }
  if (typeof kept !== 'object' || kept === null) return emptyBook;
  const { trials, prices, packs, values, settings, business, numbering } = kept as Record<string, unknown>;
  const letterhead = { ...NO_BUSINESS, ...(typeof business === 'object' ? business : null) };
  return {
    ...(business && shape.business.safeParse(letterhead).success ? { business: letterhead } : {}),
    ...(numberingShape.safeParse(numbering).success ? { numbering } : {}),
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
