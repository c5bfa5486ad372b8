import { fail, ok, type Result } from '../../geometry/result.ts';
import { type Book, emptyBook, readBook } from '../job/book.ts';
import { readJobFile } from '../job/file.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { database, type KeptTitle, storageProblem } from './database.ts';
import { copyBookToSecond, copyImageToSecond } from './second-store.ts';

/** A job and the pictures it needs. */
export interface KeptJob {
  readonly job: Job;
  readonly images: ReadonlyMap<Id, Blob>;
}

/** Keeps a picture; pictures never change, so once is enough. */
export async function keepImage(id: Id, image: Blob): Promise<Result<null, Problem>> {
  try {
    await (await database()).put('images', image, id);
    copyImageToSecond(id, image);
    return ok(null);
  } catch (error) {
    return fail(storageProblem(error));
  }
}

/** A kept picture; null where there is none. */
export async function keptImage(id: Id): Promise<Blob | null> {
  try {
    return (await (await database()).get('images', id)) ?? null;
  } catch {
    return null;
  }
}

/** Changes what later jobs start with, in one go with reading it: no tab writes over what another wrote. */
export async function changeBook(change: (book: Book) => Book): Promise<Result<Book, Problem>> {
  try {
    const tx = (await database()).transaction('desk', 'readwrite', { durability: 'strict' });
    const next = change(readBook((await tx.store.get('book')) ?? ''));
    await Promise.all([tx.store.put(JSON.stringify(next), 'book'), tx.done]);
    copyBookToSecond();
    return ok(next);
  } catch (error) {
    return fail(storageProblem(error));
  }
}

/** What later jobs start with; nothing where storage is blocked. */
export async function openBook(): Promise<Book> {
  try {
    return readBook((await (await database()).get('desk', 'book')) ?? '');
  } catch {
    return emptyBook;
  }
}

/** Whether a job of this id is kept in this browser. */
export async function isKept(id: Id): Promise<boolean> {
  try {
    return (await (await database()).getKey('jobs', id)) !== undefined;
  } catch {
    return false;
  }
}

/** The jobs kept in this browser, the last worked on first; none where storage is blocked. */
export async function listKeptJobs(): Promise<KeptTitle[]> {
  try {
    const db = await database();
    const titles = new Map((await db.getAll('titles')).map((t) => [t.id, t]));
    for (const id of await db.getAllKeys('jobs')) {
      if (titles.has(id)) continue;
      // Kept by the first version of the database, which had no titles.
      const kept = await db.get('jobs', id);
      const file = kept && readJobFile(kept.text, id);
      titles.set(id, { id, name: file?.ok ? file.value.job.name : id, savedAt: kept?.savedAt ?? 0 });
    }
    return [...titles.values()].sort((a, b) => b.savedAt - a.savedAt);
  } catch {
    return [];
  }
}

/** A kept job's text as it lies there, also one that cannot be read; null where there is none. */
export async function keptText(id: Id): Promise<string | null> {
  try {
    return (await (await database()).get('jobs', id))?.text ?? null;
  } catch {
    return null;
  }
}

export type { KeptTitle } from './database.ts';
