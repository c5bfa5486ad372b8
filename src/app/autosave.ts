import type { Job } from '../job/types.ts';
import { keepImage, keepJob, openKeptJob } from '../storage/job-store.ts';
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
  keepChanges();
}

function keepChanges(): void {
  let kept: Job = currentJob();
  let timer = 0;
  let told = false;
  const write = async () => {
    clearTimeout(timer);
    timer = 0;
    const job = currentJob();
    if (job === kept) return;
    kept = job;
    for (const [id, image] of store.getState().images) void keepImage(id, image);
    const done = await keepJob(job, Date.now());
    store.setState({ saved: done.ok ? 'yes' : 'no' });
    if (!done.ok && !told) sayProblem(done.problem);
    told = !done.ok;
  };
  store.subscribe((state) => {
    if (state.history.job === kept || timer !== 0) return;
    timer = window.setTimeout(() => void write(), WAIT_MS);
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void write();
  });
  addEventListener('pagehide', () => void write());
  void navigator.storage?.persist?.();
}
