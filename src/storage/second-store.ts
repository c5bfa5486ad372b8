import type { Id } from '../job/types.ts';
import { type Db, database, daysOf, secondDatabase, stepsOf } from './database.ts';

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

/** Keeps a picture in the second store too. */
export const copyImageToSecond = (id: Id, image: Blob): Promise<void> =>
  quietly(async (_, second) => {
    await second.put('images', image, id);
  });

/** Keeps what later jobs start with in the second store too. */
export const copyBookToSecond = (): Promise<void> => quietly(copyDesk);

/**
 * Brings back from the second store what the first has lost: jobs that it has no longer or has fewer steps of.
 * @returns the names of those jobs
 */
export async function bringBack(): Promise<string[]> {
  const names: string[] = [];
  await quietly(async (first, second) => {
    for (const id of await second.getAllKeys('jobs')) {
      if ((await lastNumber(first, id)) >= (await lastNumber(second, id))) continue;
      await copyJob(second, first, id);
      names.push((await second.get('titles', id))?.name ?? id);
    }
    if (names.length === 0) return;
    await copyImages(second, first);
    await copyDesk(second, first);
  });
  return names;
}

/** Fills the second store with what it does not have: once, and after it was lost itself. */
export const fillSecond = (): Promise<void> =>
  quietly(async (first, second) => {
    for (const id of await first.getAllKeys('jobs'))
      if ((await lastNumber(second, id)) < (await lastNumber(first, id))) await copyJob(first, second, id);
    await copyImages(first, second);
    await copyDesk(first, second);
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
  return (await db.get('jobs', id))?.seq ?? -1;
}

/** Makes a job in one store what it is in the other: only the steps that are missing, where both begin alike. */
async function copyJob(from: Db, to: Db, id: Id): Promise<void> {
  const base = await from.get('jobs', id);
  if (!base) return;
  const alike = (await to.get('jobs', id))?.seq === base.seq;
  const begin = alike ? Math.max(base.seq, await lastNumber(to, id)) : base.seq;
  const [steps, title, days] = await Promise.all([
    from.getAll('log', stepsOf(id, begin + 1)),
    from.get('titles', id),
    from.getAllKeys('versions', daysOf(id)),
  ]);
  const known = new Set((await to.getAllKeys('versions', daysOf(id))).map(([, day]) => day));
  const fresh = await Promise.all(
    days
      .filter(([, day]) => !known.has(day))
      .map(async (key) => [key, (await from.get('versions', key))!] as const),
  );
  const tx = to.transaction(['jobs', 'log', 'titles', 'versions', 'desk'], 'readwrite');
  const log = tx.objectStore('log');
  const writes: Promise<unknown>[] = [tx.objectStore('desk').put(id, 'open')];
  if (!alike) writes.push(tx.objectStore('jobs').put(base, id), log.delete(stepsOf(id)));
  steps.forEach((step, i) => void writes.push(log.put(step, [id, begin + 1 + i])));
  if (title) writes.push(tx.objectStore('titles').put(title, id));
  for (const [key, version] of fresh) writes.push(tx.objectStore('versions').put(version, key));
  await Promise.all([...writes, tx.done]);
}

async function copyImages(from: Db, to: Db): Promise<void> {
  const there = new Set(await to.getAllKeys('images'));
  for (const id of await from.getAllKeys('images')) {
    const image = there.has(id) ? undefined : await from.get('images', id);
    if (image) await to.put('images', image, id);
  }
}

async function copyDesk(from: Db, to: Db): Promise<void> {
  for (const key of ['open', 'book'] as const) {
    const value = await from.get('desk', key);
    if (value !== undefined) await to.put('desk', value, key);
  }
}
