import { bookAfter } from '../job/book.ts';
import { type Entry, type History, replay, startHistory } from '../job/history.ts';
import { imageIdsOf } from '../job/images.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { type Addition, appendSteps, type Others, openKept, stepsAfter } from '../storage/job-log.ts';
import { changeBook, keepImage, keptImage, openBook } from '../storage/job-store.ts';
import { bringBack, copyToSecond, fillSecond } from '../storage/second-store.ts';
import { tr } from '../words/tr.ts';
import { followHistory, keepPicture, onStep, say, sayProblem, showHistory, store } from './store.ts';
import { today } from './writing.ts';

/** The job that is open: what of it is on the disk, and what is still to be written. Always: job = kept + waiting. */
interface Keeping {
  readonly id: Id;
  kept: History;
  /** Whether it is to be on the disk before anything of it is changed. */
  readonly asItIs: boolean;
  /** Whether anything of it is on the disk. */
  exists: boolean;
  /** The number of the last step on the disk. */
  seq: number;
  waiting: Entry[];
}

const notKept = (before: Job, asItIs = false): Keeping => ({
  id: before.id,
  kept: startHistory(before),
  asItIs,
  exists: false,
  seq: 0,
  waiting: [],
});

let keeping: Keeping = notKept(store.getState().history.job);
/** Jobs that were left before all of their steps were written. */
let left: Keeping[] = [];
let writing = false;
let told = false;
const keptImages = new Set<Id>();

/** Other tabs say here that they have added steps. */
const tabs = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('slabwright');

/**
 * Opens what was open before; then keeps every step as it is made.
 * @param begin opens something else where nothing was open, or it cannot be read
 */
export async function startDesk(begin: () => Promise<void>): Promise<void> {
  const back = await bringBack();
  const kept = await openKept();
  if (kept.ok && kept.value) openHistory(kept.value.history, kept.value.seq, kept.value.images);
  else await begin();
  if (!kept.ok) sayProblem(kept.problem);
  else if (back.length > 0) sayProblem({ code: 'storage/brought-back', jobs: back });
  store.setState({ book: await openBook() });
  onStep(takeStep);
  store.subscribe(({ history: { job } }, before) => keepInBook(before.history.job, job));
  tabs?.addEventListener('message', ({ data }: MessageEvent<{ readonly id: Id; readonly seq: number }>) => {
    if (data.id === keeping.id && data.seq > keeping.seq) void write();
  });
  // A phone that was asleep may have missed what another tab said.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void write();
  });
  void navigator.storage?.persist?.();
  void fillSecond();
}

/** Shows a job that is kept already, with its history. */
export function openHistory(history: History, seq: number, images: ReadonlyMap<Id, Blob>): void {
  turnTo({ id: history.job.id, kept: history, asItIs: true, exists: true, seq, waiting: [] });
  for (const id of images.keys()) keptImages.add(id);
  showHistory(history, images);
  store.setState({ saved: 'yes' });
}

function turnTo(next: Keeping): void {
  if (isUnwritten(keeping)) left.push(keeping);
  keeping = next;
}

/** Keeps a job that was opened from a file as it is. */
export async function keepOpened(): Promise<void> {
  turnTo(notKept(store.getState().history.job, true));
  await write();
}

function takeStep(entry: Entry): void {
  const { history } = store.getState();
  // The first step of a job that was opened without being kept: what it was before is written with it.
  if (history.job.id !== keeping.id)
    turnTo(notKept(history.past[history.past.length - 1]?.job ?? history.job));
  keeping.waiting.push(entry);
  store.setState({ saved: 'no' });
  void write();
}

/** Writes what waits, and takes in what other tabs have written; one job at a time. */
async function write(): Promise<void> {
  if (writing) return;
  writing = true;
  try {
    do {
      const k = left[0] ?? keeping;
      if (!(await writeOnce(k))) break;
      if (k === left[0] && !isUnwritten(k)) left = left.slice(1);
    } while (left.length > 0 || isUnwritten(keeping));
  } finally {
    writing = false;
  }
}

/** Whether all that was entered is on the disk: every job that was open, and what later jobs start with. */
export const isWritten = (): boolean =>
  !writing && left.length === 0 && !isUnwritten(keeping) && booksToWrite === 0;

let booksToWrite = 0;

/** Whether something of a job is still to be written. */
const isUnwritten = (k: Keeping): boolean => k.waiting.length > 0 || (k.asItIs && !k.exists);

/** @returns whether it went well */
async function writeOnce(k: Keeping): Promise<boolean> {
  const entries = [...k.waiting];
  const problem = (await keepFreshImages()) ?? (isUnwritten(k) ? await add(k, entries) : await catchUp(k));
  if (problem) {
    if (!told) sayProblem(problem);
    told = true;
    // Steps wait until there is room again; the job can be saved to a file meanwhile.
    setTimeout(() => void write(), RETRY_MS);
    return false;
  }
  told = false;
  if (k === keeping && k.exists && k.waiting.length === 0) store.setState({ saved: 'yes' });
  if (k.exists) copyToSecond(k.id);
  return true;
}

const RETRY_MS = 3000;

async function keepFreshImages() {
  for (const [id, image] of store.getState().images) {
    if (keptImages.has(id)) continue;
    const kept = await keepImage(id, image);
    if (!kept.ok) return kept.problem;
    keptImages.add(id);
  }
  return null;
}

async function add(k: Keeping, entries: readonly Entry[]) {
  const after = replay(k.kept, entries);
  const addition: Addition = {
    id: k.id,
    after: k.seq,
    entries,
    before: k.kept.job,
    name: after.job.name,
    day: today(),
    now: Date.now(),
  };
  const added = await appendSteps(addition);
  if (!added.ok) return added.problem;
  k.exists = true;
  if (added.value.done) {
    k.kept = after;
    k.seq += entries.length;
    k.waiting.splice(0, entries.length);
    tabs?.postMessage({ id: k.id, seq: k.seq });
  } else return takeIn(k, added.value.others);
  return null;
}

async function catchUp(k: Keeping) {
  if (!k.exists) return null;
  const others = await stepsAfter(k.id, k.seq);
  if (!others.ok) return others.problem;
  return others.value === null || others.value.length > 0 ? takeIn(k, others.value) : null;
}

/** Puts another tab's steps before those that wait here; a way back that was meant for one's own last step is dropped. */
async function takeIn(k: Keeping, others: Others): Promise<Problem | null> {
  if (others) {
    k.kept = replay(k.kept, others);
    k.seq += others.length;
  } else {
    // So much was done elsewhere that the log was cut meanwhile: it is opened as it is now.
    const anew = await openKept(k.id);
    if (!anew.ok) return anew.problem;
    if (anew.value) Object.assign(k, { kept: anew.value.history, seq: anew.value.seq });
  }
  k.waiting = k.waiting.filter((entry) => 'do' in entry);
  if (k !== keeping) return null;
  for (const id of imageIdsOf(k.kept.job)) {
    if (store.getState().images.has(id)) continue;
    const image = await keptImage(id);
    if (image) keepPicture(id, image);
    keptImages.add(id);
  }
  if (k !== keeping) return null;
  followHistory(replay(k.kept, k.waiting));
  say(tr`This job was changed in another tab; both have all of it now.`);
  return null;
}

/** Prices, values, trials and the letterhead go into the book as they are entered, for the jobs to come. */
function keepInBook(before: Job, now: Job): void {
  const same =
    before.id !== now.id ||
    (before.values === now.values &&
      before.trials === now.trials &&
      before.prices === now.prices &&
      before.packs === now.packs &&
      before.business === now.business &&
      before.settings === now.settings);
  if (same) return;
  store.setState({ book: bookAfter(store.getState().book, before, now) });
  booksToWrite++;
  void changeBook((book) => bookAfter(book, before, now)).then((kept) => {
    booksToWrite--;
    if (kept.ok) store.setState({ book: kept.value });
  });
}
