import { type DBSchema, type IDBPDatabase, openDB, wrap } from 'idb';
import type { Entry } from '../job/history.ts';
import type { Id } from '../job/types.ts';
import type { Problem } from '../problem.ts';

/** A job as it is kept: how it once was, and every step since then in the log. */
export interface KeptBase {
  readonly text: string;
  /** The number of the last step that is in the text already. */
  readonly seq: number;
}

/** What a job is called and when it was last worked on, to choose from without reading it. */
export interface KeptTitle {
  readonly id: Id;
  readonly name: string;
  readonly savedAt: number;
}

export interface Shelves extends DBSchema {
  jobs: { key: Id; value: KeptBase & { readonly savedAt?: number } };
  /** Steps by job and number, from 1. */
  log: { key: [Id, number]; value: Entry };
  titles: { key: Id; value: KeptTitle };
  /** How a job was before the first change of a day, by job and day. */
  versions: { key: [Id, string]; value: { readonly text: string } };
  images: { key: Id; value: Blob };
  /** `open`: the id of the job that was last worked on; `book`: what later jobs start with, as JSON. */
  desk: { key: 'open' | 'book'; value: string };
}

export type Db = IDBPDatabase<Shelves>;

const NAME = 'slabwright';
const VERSION = 2;

function upgrade(db: Db, from: number): void {
  if (from < 1) {
    db.createObjectStore('jobs');
    db.createObjectStore('images');
    db.createObjectStore('desk');
  }
  if (from < 2) {
    db.createObjectStore('log');
    db.createObjectStore('titles');
    db.createObjectStore('versions');
  }
}

let opened: Promise<Db> | null = null;

/** The database of this browser; opened once, and again after it failed. */
export const database = (): Promise<Db> => {
  opened ??= openDB<Shelves>(NAME, VERSION, {
    upgrade,
    // Another tab waits with a newer version of the program: it goes first.
    blocking(_now, _next, event) {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated() {
      opened = null;
    },
  });
  return opened;
};

/** What a browser with storage buckets has of them. https://wicg.github.io/storage-buckets/ */
interface Buckets {
  open(name: string): Promise<{ readonly indexedDB: IDBFactory }>;
}

let second: Promise<Db | null> | null = null;

/** Nobody waits longer than this for the second database; there is none then until the page is left. */
const LONG_MS = 3000;

/** A database with the same shelves in a bucket of its own, which has its own files; null where there are none. */
export async function secondDatabase(): Promise<Db | null> {
  const { storageBuckets } = navigator as { readonly storageBuckets?: Buckets };
  if (!storageBuckets) return null;
  const late = () => new Promise<null>((resolve) => setTimeout(resolve, LONG_MS, null));
  second ??= Promise.race([openSecond(storageBuckets), late()]);
  try {
    return await second;
  } catch (error) {
    second = null;
    throw error;
  }
}

async function openSecond(buckets: Buckets): Promise<Db> {
  const request = (await buckets.open('second')).indexedDB.open(NAME, VERSION);
  request.addEventListener('upgradeneeded', ({ oldVersion }) =>
    upgrade(wrap(request.result) as unknown as Db, oldVersion),
  );
  const db = (await wrap(request)) as unknown as Db;
  // Another tab waits with a newer version of the program: it goes first.
  db.addEventListener('versionchange', () => {
    db.close();
    second = null;
  });
  db.addEventListener('close', () => {
    second = null;
  });
  return db;
}

/** What went wrong, for a person; the next try opens the database anew. */
export function storageProblem(error: unknown): Problem {
  opened = null;
  return error instanceof DOMException && error.name === 'QuotaExceededError'
    ? { code: 'storage/full' }
    : { code: 'storage/blocked' };
}

/** All steps of a job, or those from a number on. */
export const stepsOf = (id: Id, from = 0): IDBKeyRange =>
  IDBKeyRange.bound([id, from], [id, Number.MAX_SAFE_INTEGER]);

/** All days of a job. */
export const daysOf = (id: Id): IDBKeyRange => IDBKeyRange.bound([id, ''], [id, '\uffff']);
