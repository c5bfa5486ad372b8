import { startDesk } from '../../src/app/keeping.ts';
import { change, goBack, goForward, showJob, store } from '../../src/app/store.ts';
import { openKept } from '../../src/storage/job-log.ts';
import { digest, type Found, firstJob, stepsOfRound } from './steps.ts';

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** What the test calls from outside the page. */
const probe = {
  /** The number of the last step on the disk, and what the page shows after it. */
  async found(): Promise<Found> {
    const kept = await openKept();
    const { history, message } = store.getState();
    return {
      seq: kept.ok ? (kept.value?.seq ?? 0) : -1,
      digest: digest(history),
      broughtBack: message?.text.includes('came back from a second copy') ?? false,
    };
  },
  saved: () => store.getState().saved,
  /** Works on until the page is killed; says each step that was made, when it was made. */
  async work(round: number): Promise<void> {
    const steps = stepsOfRound(round);
    for (let i = 1; ; i++) {
      await wait(steps.gap());
      const step = steps.next(store.getState().history);
      if (step.kind === 'undo') goBack();
      else if (step.kind === 'redo') goForward();
      else change([step.edit]);
      console.log(`step ${i}`);
    }
  },
};
(globalThis as unknown as { probe: typeof probe }).probe = probe;

await startDesk(async () => showJob(firstJob(), new Map()));
document.title = 'ready';
