import type { Id } from '../job/types.ts';
import { type Db, database, daysOf, type KeptBase, secondDatabase, stepsOf } from './database.ts';

/**
 * Everything that is kept lies in a second store too. Chromium writes the head and the body of a record in two goes;
 * killed between them it appends behind the torn record, finds the damage when it opens the store the time after, and
 * throws all of it away. A kill that tears one store seldom comes to pass (1 of 200); one that tears both, hardly.
 */

/** Brings the second store level with the first for one job, one copy after another; nobody waits for it. */
export function copyToSecond(id: Id): void {
  if (due.has(id)) return;
  due.add(id);
  last = last.then(() => {
    due.delete(id);
    return quietly((first, second) => copyJob(first, second, id));
  });
}

const due = new Set<Id>();
let last: Promise<void> = Promise.resolve();

/** Keeps a picture in the second store too; nobody waits for it. */
export const copyImageToSecond = (id: Id, image: Blob): void =>
  void quietly(async (_, second) => {
    await second.put('images', image, id);
  });

/** Keeps what later jobs start with in the second store too; nobody waits for it. */
export const copyBookToSecond = (): void => void quietly((first, second) => copyDesk(first, second, 'book'));

/**
 * Brings back from the second store what the first has lost: pictures, the book, and jobs that it has no longer or has
 * fewer steps of. Each is looked at by itself, so that the next start goes on where one was cut short.
 * @returns the names of those jobs
 */
export async function bringBack(): Promise<string[]> {
  const names: string[] = [];
  await quietly(async (first, second) => {
    await copyImages(second, first);
    if ((await first.getKey('desk', 'book')) === undefined) await copyDesk(second, first, 'book');
    for (const id of await second.getAllKeys('jobs')) {
      // In this order: another tab that works meanwhile writes to the first before the second.
      const there = await lastNumber(second, id);
      if ((await lastNumber(first, id)) >= there) continue;
      await copyJob(second, first, id);
      names.push((await second.get('titles', id))?.name ?? id);
    }
    if (names.length > 0) await copyDesk(second, first, 'open');
  });
  return names;
}

/** Fills the second store with what it does not have: once, and after it was lost itself. */
export const fillSecond = (): Promise<void> =>
  quietly(async (first, second) => {
    for (const id of await first.getAllKeys('jobs'))
      if ((await lastNumber(second, id)) < (await lastNumber(first, id))) await copyJob(first, second, id);
    await copyImages(first, second);
    await copyDesk(first, second, 'book');
    await copyDesk(first, second, 'open');
  });

async function quietly(work: (first: Db, second: Db) => Promise<void>): Promise<void> {
  try {
    const second = await secondDatabase();
    if (second) await work(await database(), second);
  } catch {
    // It is full or switched off: the first store goes on, and says so in words when it is that itself.
  }
}

/** The number of a job's last step; −1 where there is no such job. */
async function lastNumber(db: Db, id: Id): Promise<number> {
  const step = await db.transaction('log').store.openKeyCursor(stepsOf(id), 'prev');
  if (step) return step.key[1];
  const base = await db.get('jobs', id);
  return base ? numberOf(base) : -1;
}

/** Jobs of the first version of the database have no number. */
const numberOf = (base: KeptBase): number => base.seq ?? 0;

/** Makes a job in one store what it is in the other: only the steps that are missing, where both begin alike. */
async function copyJob(from: Db, to: Db, id: Id): Promise<void> {
  const had = await to.get('jobs', id);
  const last = had ? await lastNumber(to, id) : -1;
  const known = new Set((await to.getAllKeys('versions', daysOf(id))).map(([, day]) => day));
  // All of it as it is at one moment.
  const reading = from.transaction(['jobs', 'log', 'titles', 'versions']);
  const base = await reading.objectStore('jobs').get(id);
  if (!base) return;
  const alike = had !== undefined && numberOf(had) === numberOf(base);
  const missing = stepsOf(id, (alike ? last : numberOf(base)) + 1);
  const days = (await reading.objectStore('versions').getAllKeys(daysOf(id))).map(([, day]) => day);
  const fresh = days.filter((day) => !known.has(day));
  const [keys, steps, title, versions] = await Promise.all([
    reading.objectStore('log').getAllKeys(missing),
    reading.objectStore('log').getAll(missing),
    reading.objectStore('titles').get(id),
    Promise.all(fresh.map((day) => reading.objectStore('versions').get([id, day]))),
  ]);
  const tx = to.transaction(['jobs', 'log', 'titles', 'versions', 'desk'], 'readwrite');
  const log = tx.objectStore('log');
  // Another tab may have written meanwhile: its copy is as good, and the next one makes up for the rest.
  const now = await log.openKeyCursor(stepsOf(id), 'prev');
  if (now && now.key[1] > last) return tx.done;
  const writes: Promise<unknown>[] = [tx.objectStore('desk').put(id, 'open')];
  if (!alike) writes.push(tx.objectStore('jobs').put(base, id), log.delete(stepsOf(id)));
  keys.forEach((key, i) => void writes.push(log.put(steps[i]!, key)));
  if (title) writes.push(tx.objectStore('titles').put(title, id));
  fresh.forEach((day, i) => void writes.push(tx.objectStore('versions').put(versions[i]!, [id, day])));
  // Days that the one has dropped are dropped in the other.
  for (const day of known) if (!days.includes(day)) writes.push(tx.objectStore('versions').delete([id, day]));
  await Promise.all([...writes, tx.done]);
}

async function copyImages(from: Db, to: Db): Promise<void> {
  const there = new Set(await to.getAllKeys('images'));
  for (const id of await from.getAllKeys('images')) {
    const image = there.has(id) ? undefined : await from.get('images', id);
    if (image) await to.put('images', image, id);
  }
}

async function copyDesk(from: Db, to: Db, key: 'open' | 'book'): Promise<void> {
  const value = await from.get('desk', key);
  if (value !== undefined) await to.put('desk', value, key);
}
