import { readJobFile, writeJobFile } from '../job/file.ts';
import type { Id, Job } from '../job/types.ts';

/**
 * The last state of each job in the browser's other store, for the day its database is gone: browsers throw theirs
 * away when they find it damaged. Pictures and the steps that led there do not fit in.
 */
const PREFIX = 'slabwright second copy of ';

/** Keeps the last state of a job; where there is no room for it, copies of jobs left longer ago go first. */
export function writeSecondCopy(job: Job, now: number): void {
  const text = JSON.stringify({ savedAt: now, text: writeJobFile({ job, images: {} }) });
  try {
    const others = stored().filter(({ key }) => key !== PREFIX + job.id);
    while (!fits(PREFIX + job.id, text)) {
      const oldest = others.pop();
      if (!oldest) return;
      localStorage.removeItem(oldest.key);
    }
  } catch {
    // Storage is switched off: the database says so in words.
  }
}

/** The jobs whose last state is kept, the last worked on first; none where nothing can be read. */
export function secondCopies(): Job[] {
  try {
    return stored().flatMap(({ text }) => {
      const file = readJobFile(text, 'the second copy kept in this browser');
      return file.ok ? [file.value.job] : [];
    });
  } catch {
    return [];
  }
}

interface Stored {
  readonly key: string;
  readonly savedAt: number;
  readonly text: string;
}

const stored = (): Stored[] =>
  Object.keys(localStorage)
    .filter((key) => key.startsWith(PREFIX))
    .map((key) => ({ key, ...contents(localStorage.getItem(key) ?? '') }))
    .sort((a, b) => b.savedAt - a.savedAt);

function contents(text: string): { readonly savedAt: number; readonly text: string } {
  try {
    const found = JSON.parse(text) as { savedAt?: unknown; text?: unknown } | null;
    return { savedAt: Number(found?.savedAt) || 0, text: String(found?.text) };
  } catch {
    return { savedAt: 0, text: '' };
  }
}

function fits(key: string, text: string): boolean {
  try {
    localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}

/** Which jobs are to be brought back: those of which the database has nothing. */
export async function lostJobs(isKept: (id: Id) => Promise<boolean>): Promise<Job[]> {
  const lost: Job[] = [];
  for (const job of secondCopies()) if (!(await isKept(job.id))) lost.push(job);
  return lost;
}
