import { bookAfter } from '../job/book.ts';
import type { Id, Job } from '../job/types.ts';
import { keepBook, keepImage, keepJob, openBook, openKeptJob } from '../storage/job-store.ts';
import { DEMOS } from './demos.ts';
import { showDemo } from './files.ts';
import { currentJob, sayProblem, showJob, store } from './store.ts';

/** A change is written this long after it was made; sooner when the page is left. */
const WAIT_MS = 150;

/** Opens what was open before, else the first demo; then keeps every change. */
export async function startDesk(): Promise<void> {
  const kept = await openKeptJob();
  if (kept.ok && kept.value) showJob(kept.value.job, kept.value.images);
  else await showDemo(DEMOS[0]!.id);
  if (!kept.ok) sayProblem(kept.problem);
  if (kept.ok && kept.value) store.setState({ saved: 'yes' });
  store.setState({ book: await openBook() });
  keepChanges();
}

function keepChanges(): void {
  let kept: Job = currentJob();
  let latest: Job = kept;
  let timer = 0;
  let told = false;
  const keptImages = new Set<Id>();

  const write = async (open = true) => {
    clearTimeout(timer);
    timer = 0;
    const job = latest;
    if (job === kept) return;
    const { images } = store.getState();
    const fresh = [...images].filter(([id]) => !keptImages.has(id));
    const done = [
      ...(await Promise.all(fresh.map(([id, image]) => keepImage(id, image)))),
      await keepJob(job, Date.now(), open),
    ];
    const problem = done.find((d) => !d.ok);
    if (open) store.setState({ saved: problem ? 'no' : 'yes' });
    if (!problem) {
      if (open) kept = job;
      for (const [id] of fresh) keptImages.add(id);
    } else if (!told && !problem.ok) sayProblem(problem.problem);
    told = problem !== undefined;
  };

  store.subscribe(({ history: { job } }) => {
    if (job === latest) return;
    if (job.id !== latest.id) {
      // Another job is opened: what is still to be written of the old one goes first.
      void write(false);
      kept = job;
      latest = job;
      return;
    }
    // What is told below calls back here: the latest comes first.
    const before = latest;
    latest = job;
    keepInBook(before, job);
    if (timer === 0) timer = window.setTimeout(() => void write(), WAIT_MS);
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void write();
  });
  addEventListener('pagehide', () => void write());
  void navigator.storage?.persist?.();
}

/** Prices, values and trials go into the book as they are entered, for the jobs to come. */
function keepInBook(before: Job, now: Job): void {
  const same =
    before.values === now.values &&
    before.trials === now.trials &&
    before.prices === now.prices &&
    before.packs === now.packs &&
    before.business === now.business &&
    before.settings === now.settings;
  if (same) return;
  const book = bookAfter(store.getState().book, before, now);
  store.setState({ book });
  void keepBook(book);
}
