import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { fail, ok, type Result } from '../../geometry/result.ts';
import { type Book, emptyBook, readBook } from '../job/book.ts';
import { readJobFile, writeJobFile } from '../job/file.ts';
import { imageIdsOf } from '../job/images.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';

interface Shelves extends DBSchema {
  jobs: { key: Id; value: { readonly text: string; readonly savedAt: number } };
  images: { key: Id; value: Blob };
  /** `open`: the id of the job that was last worked on; `book`: what later jobs start with, as JSON. */
  desk: { key: 'open' | 'book'; value: string };
}

type Db = IDBPDatabase<Shelves>;

let opened: Promise<Db> | null = null;

const database = (): Promise<Db> => {
  opened ??= openDB<Shelves>('slabwright', 1, {
    upgrade(db) {
      db.createObjectStore('jobs');
      db.createObjectStore('images');
      db.createObjectStore('desk');
    },
  });
  return opened;
};

const problemOf = (error: unknown): Problem =>
  error instanceof DOMException && error.name === 'QuotaExceededError'
    ? { code: 'storage/full' }
    : { code: 'storage/blocked' };

/** A job and the pictures it needs, as they are kept in this browser. */
export interface KeptJob {
  readonly job: Job;
  readonly images: ReadonlyMap<Id, Blob>;
}

/**
 * Keeps the job; one transaction, all or nothing.
 * @param open whether it is the one to come back to
 */
export async function keepJob(job: Job, savedAt: number, open: boolean): Promise<Result<null, Problem>> {
  try {
    const db = await database();
    const change = db.transaction(['jobs', 'desk'], 'readwrite', { durability: 'strict' });
    await Promise.all([
      change.objectStore('jobs').put({ text: writeJobFile({ job, images: {} }), savedAt }, job.id),
      open ? change.objectStore('desk').put(job.id, 'open') : null,
      change.done,
    ]);
    return ok(null);
  } catch (error) {
    opened = null;
    return fail(problemOf(error));
  }
}

/** Keeps a picture; pictures never change, so once is enough. */
export async function keepImage(id: Id, image: Blob): Promise<Result<null, Problem>> {
  try {
    await (await database()).put('images', image, id);
    return ok(null);
  } catch (error) {
    opened = null;
    return fail(problemOf(error));
  }
}

/** Keeps what later jobs start with. */
export async function keepBook(book: Book): Promise<Result<null, Problem>> {
  try {
    await (await database()).put('desk', JSON.stringify(book), 'book');
    return ok(null);
  } catch (error) {
    opened = null;
    return fail(problemOf(error));
  }
}

/** What later jobs start with; nothing where storage is blocked. */
export async function openBook(): Promise<Book> {
  try {
    return readBook((await (await database()).get('desk', 'book')) ?? '');
  } catch {
    opened = null;
    return emptyBook;
  }
}

/** A job kept in this browser, to choose from. */
export interface KeptTitle {
  readonly id: Id;
  readonly name: string;
  readonly savedAt: number;
}

/** The jobs kept in this browser, the last saved first; none where storage is blocked. */
export async function listKeptJobs(): Promise<KeptTitle[]> {
  try {
    const db = await database();
    const titles: KeptTitle[] = [];
    for (const id of await db.getAllKeys('jobs')) {
      const kept = await db.get('jobs', id);
      const file = kept && readJobFile(kept.text, id);
      if (kept && file?.ok) titles.push({ id, name: file.value.job.name, savedAt: kept.savedAt });
    }
    return titles.sort((a, b) => b.savedAt - a.savedAt);
  } catch {
    opened = null;
    return [];
  }
}

/**
 * A job kept in this browser, which is then the one that is open; null when it is not there.
 * @param wanted its id; the job that was open when the page was left where none is given
 */
export async function openKeptJob(wanted: Id | null = null): Promise<Result<KeptJob | null, Problem>> {
  try {
    const db = await database();
    const id = wanted ?? (await db.get('desk', 'open'));
    const kept = id === undefined ? undefined : await db.get('jobs', id);
    if (!kept || id === undefined) return ok(null);
    const file = readJobFile(kept.text, 'the job kept in this browser');
    if (!file.ok) return file;
    await db.put('desk', id, 'open');
    const images = new Map<Id, Blob>();
    for (const imageId of imageIdsOf(file.value.job)) {
      const image = await db.get('images', imageId);
      if (image) images.set(imageId, image);
    }
    return ok({ job: file.value.job, images });
  } catch (error) {
    opened = null;
    return fail(problemOf(error));
  }
}
