import { fail, ok, type Result } from '../../geometry/result.ts';
import { readJobFile, writeJobFile } from '../job/file.ts';
import { type Entry, type History, replay, replayShorter, startHistory } from '../job/history.ts';
import { imageIdsOf } from '../job/images.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { tr } from '../words/tr.ts';
import { type Db, database, daysOf, type KeptBase, stepsOf, storageProblem } from './database.ts';

/** A job with the steps that led to it, as it is kept in this browser. */
export interface KeptHistory {
  readonly history: History;
  /** The number of its last step. */
  readonly seq: number;
  readonly images: ReadonlyMap<Id, Blob>;
}

/** Steps that another tab has added; null where the log begins after the number they were asked from: it was cut. */
export type Others = readonly Entry[] | null;

/** What came of adding steps: done, or somebody else's steps came first. */
export type Appended = { readonly done: true } | { readonly done: false; readonly others: Others };

/** Days that can be gone back to. */
const MOST_DAYS = 30;

/** A log longer than this is shortened when the job is opened, to no fewer steps than can be taken back. */
const LONG_LOG = 1500;

/** One step further that is to be kept. */
export interface Addition {
  readonly id: Id;
  /** The number of the last step that the entries follow. */
  readonly after: number;
  readonly entries: readonly Entry[];
  /** The job before the entries: what is kept where nothing was yet, and the version of the day. */
  readonly before: Job;
  readonly name: string;
  readonly day: string;
  readonly now: number;
}

/**
 * Adds steps to a job's log, all or none, on the disk when this is done; nothing is added when another tab has added
 * some since.
 */
export async function appendSteps(a: Addition): Promise<Result<Appended, Problem>> {
  try {
    const db = await database();
    const tx = db.transaction(['jobs', 'log', 'titles', 'versions', 'desk'], 'readwrite', {
      durability: 'strict',
    });
    const [log, jobs, versions] = [tx.objectStore('log'), tx.objectStore('jobs'), tx.objectStore('versions')];
    const [others, base, version] = await Promise.all([
      log.getAll(stepsOf(a.id, a.after + 1)),
      jobs.get(a.id),
      versions.getKey([a.id, a.day]),
    ]);
    if (isCut(base, a.after)) {
      await tx.done;
      return ok({ done: false, others: null });
    }
    if (others.length > 0) {
      await tx.done;
      return ok({ done: false, others });
    }
    const text =
      base === undefined || version === undefined ? writeJobFile({ job: a.before, images: {} }) : '';
    const writes: Promise<unknown>[] = a.entries.map((entry, i) => log.put(entry, [a.id, a.after + 1 + i]));
    if (base === undefined) writes.push(jobs.put({ text, seq: a.after }, a.id));
    if (version === undefined) writes.push(versions.put({ text }, [a.id, a.day]));
    writes.push(tx.objectStore('titles').put({ id: a.id, name: a.name, savedAt: a.now }, a.id));
    writes.push(tx.objectStore('desk').put(a.id, 'open'));
    await Promise.all([...writes, tx.done]);
    if (version === undefined) await dropOldDays(db, a.id);
    return ok({ done: true });
  } catch (error) {
    return fail(storageProblem(error));
  }
}

async function dropOldDays(db: Db, id: Id): Promise<void> {
  const days = await db.getAllKeys('versions', daysOf(id));
  await Promise.all(
    days.slice(0, Math.max(0, days.length - MOST_DAYS)).map((key) => db.delete('versions', key)),
  );
}

/** Whether a job's log was cut beyond a number, so that what followed it cannot be read one by one any more. */
const isCut = (base: KeptBase | undefined, seq: number): boolean => (base?.seq ?? 0) > seq;

/** Steps that were added to a job after a number. */
export async function stepsAfter(id: Id, seq: number): Promise<Result<Others, Problem>> {
  try {
    const tx = (await database()).transaction(['jobs', 'log']);
    const [base, entries] = await Promise.all([
      tx.objectStore('jobs').get(id),
      tx.objectStore('log').getAll(stepsOf(id, seq + 1)),
    ]);
    return ok(isCut(base, seq) ? null : entries);
  } catch (error) {
    return fail(storageProblem(error));
  }
}

/**
 * A job kept in this browser with its history and pictures; null where it is not there.
 * @param wanted its id; the job that was open when the page was left where none is given
 */
export async function openKept(wanted: Id | null = null): Promise<Result<KeptHistory | null, Problem>> {
  try {
    const db = await database();
    const id = wanted ?? (await db.get('desk', 'open'));
    if (id === undefined) return ok(null);
    // Both as they are at one moment: another tab may cut the log.
    const tx = db.transaction(['jobs', 'log']);
    const base = await tx.objectStore('jobs').get(id);
    // Jobs of the first version of the database have no log and no number.
    const from = base?.seq ?? 0;
    const log = tx.objectStore('log');
    const [entries, keys] = await Promise.all([
      log.getAll(stepsOf(id, from + 1)),
      log.getAllKeys(stepsOf(id, from + 1)),
    ]);
    if (!base) return ok(null);
    const file = readJobFile(base.text, tr`the job kept in this browser`);
    if (!file.ok) return file;
    const seq = keys[keys.length - 1]?.[1] ?? from;
    const history = await shortened(db, id, file.value.job, from, entries);
    await db.put('desk', id, 'open');
    const images = new Map<Id, Blob>();
    for (const imageId of imageIdsOfAll(history)) {
      const image = await db.get('images', imageId);
      if (image) images.set(imageId, image);
    }
    return ok({ history, seq, images });
  } catch (error) {
    return fail(storageProblem(error));
  }
}

/** Pictures of the job, and of what undo brings back. */
const imageIdsOfAll = ({ past, job, future }: History): ReadonlySet<Id> =>
  new Set([job, ...past.map((s) => s.job), ...future.map((s) => s.job)].flatMap(imageIdsOf));

/** Replays a log. A long one is cut, and the job as it was at the cut becomes the base. */
async function shortened(
  db: Db,
  id: Id,
  job: Job,
  from: number,
  entries: readonly Entry[],
): Promise<History> {
  const start = startHistory(job);
  if (entries.length <= LONG_LOG) return replay(start, entries);
  const { history, cut, base } = replayShorter(start, entries);
  if (cut > 0) {
    const tx = db.transaction(['jobs', 'log'], 'readwrite', { durability: 'strict' });
    // Another tab may have cut it meanwhile, which is as good.
    if (((await tx.objectStore('jobs').get(id))?.seq ?? 0) !== from) {
      await tx.done;
      return history;
    }
    await Promise.all([
      tx.objectStore('jobs').put({ text: writeJobFile({ job: base, images: {} }), seq: from + cut }, id),
      tx.objectStore('log').delete(IDBKeyRange.bound([id, 0], [id, from + cut])),
      tx.done,
    ]);
  }
  return history;
}

/** The days that a job can be gone back to, the last first. */
export async function listDays(id: Id): Promise<string[]> {
  try {
    const keys = await (await database()).getAllKeys('versions', daysOf(id));
    return keys.map(([, day]) => day).reverse();
  } catch {
    return [];
  }
}

/** A job as it was before the first change of a day. */
export async function openDay(id: Id, day: string): Promise<Result<Job | null, Problem>> {
  try {
    const version = await (await database()).get('versions', [id, day]);
    if (!version) return ok(null);
    const file = readJobFile(version.text, day);
    return file.ok ? ok(file.value.job) : file;
  } catch (error) {
    return fail(storageProblem(error));
  }
}
