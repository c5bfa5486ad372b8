import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { fail, ok, type Result } from '../../geometry/result.ts';
import { readJobFile, writeJobFile } from '../job/file.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';

interface Shelves extends DBSchema {
  jobs: { key: Id; value: { readonly text: string; readonly savedAt: number } };
  images: { key: Id; value: Blob };
  /** `open`: the id of the job that was last worked on. */
  desk: { key: 'open'; value: Id };
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

/** Keeps the job as the one that is open; one transaction, all or nothing. */
export async function keepJob(job: Job, savedAt: number): Promise<Result<null, Problem>> {
  try {
    const db = await database();
    const change = db.transaction(['jobs', 'desk'], 'readwrite', { durability: 'strict' });
    await Promise.all([
      change.objectStore('jobs').put({ text: writeJobFile({ job, images: {} }), savedAt }, job.id),
      change.objectStore('desk').put(job.id, 'open'),
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

/** The job that was open when the page was left; null when there is none. */
export async function openKeptJob(): Promise<Result<KeptJob | null, Problem>> {
  try {
    const db = await database();
    const id = await db.get('desk', 'open');
    const kept = id === undefined ? undefined : await db.get('jobs', id);
    if (!kept) return ok(null);
    const file = readJobFile(kept.text, 'the job kept in this browser');
    if (!file.ok) return file;
    const images = new Map<Id, Blob>();
    for (const sheet of Object.values(file.value.job.sheets)) {
      const image = sheet.picture && (await db.get('images', sheet.picture.imageId));
      if (sheet.picture && image) images.set(sheet.picture.imageId, image);
    }
    return ok({ job: file.value.job, images });
  } catch (error) {
    opened = null;
    return fail(problemOf(error));
  }
}
