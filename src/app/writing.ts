import normalUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url';
import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url';
import type { DeskImage, Typeface } from '../exports/desk.ts';
import type { Export } from '../exports/index.ts';
import type { PaperId } from '../exports/papers/paper.ts';
import type { Id } from '../job/types.ts';
import { fileName } from '../storage/job-files.ts';
import { language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import type { WritingAsked, WritingDone } from './export-worker.ts';
import { handOver } from './hand-over.ts';
import { say, sayProblem, store } from './store.ts';

/** Today where the person is, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

async function fetched(url: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error('the typeface is not at hand');
  return new Uint8Array(await answer.arrayBuffer());
}

async function typeface(): Promise<Typeface> {
  const [normal, bold] = await Promise.all([fetched(normalUrl), fetched(boldUrl)]);
  return { normal, bold };
}

async function photos(): Promise<Array<readonly [Id, DeskImage]>> {
  const { images, results } = store.getState();
  const ids = Object.values(results.job.records ?? {}).flatMap((r) => r.photos);
  const found = ids.flatMap((id) => {
    const blob = images.get(id);
    return blob ? [{ id, blob }] : [];
  });
  return Promise.all(
    found.map(
      async ({ id, blob }) =>
        [id, { type: blob.type, bytes: new Uint8Array(await blob.arrayBuffer()) }] as const,
    ),
  );
}

let worker: Worker | null = null;

/** Stops what is being written. */
export function stopWriting(): void {
  worker?.terminate();
  worker = null;
  store.setState({ writing: null });
}

/** Writes a file beside what goes on, and hands it over. */
export async function exportFile(kind: Export, papers?: ReadonlySet<PaperId>): Promise<void> {
  stopWriting();
  const { job } = store.getState().results;
  store.setState({ writing: kind.ending });
  const own = new Worker(new URL('./export-worker.ts', import.meta.url), { type: 'module', name: language });
  worker = own;
  const done = await askWorker(own, kind, papers).catch(
    (error: unknown): WritingDone => ({ fault: String(error) }),
  );
  if (worker !== own) return;
  stopWriting();
  if ('problem' in done) sayProblem(done.problem);
  else if ('fault' in done) say(tr`The file could not be written: ${done.fault}.`, 'problem');
  else {
    const blob = new Blob([done.bytes as Uint8Array<ArrayBuffer>], { type: kind.type });
    // Saved jobs end in the same letters as numbers do.
    const name = kind.ending === 'json' ? `${job.name} numbers` : job.name;
    handOver(blob, fileName(name, kind.ending));
  }
}

async function askWorker(
  own: Worker,
  kind: Export,
  papers: ReadonlySet<PaperId> | undefined,
): Promise<WritingDone> {
  const isPdf = kind.ending === 'pdf';
  const asked: WritingAsked = {
    job: store.getState().results.job,
    ending: kind.ending,
    today: today(),
    papers: papers ? [...papers] : null,
    images: isPdf ? await photos() : [],
    typeface: isPdf ? await typeface() : null,
  };
  return new Promise((resolve) => {
    own.onmessage = ({ data }: MessageEvent<WritingDone>) => resolve(data);
    own.onerror = (event) => resolve({ fault: event.message || tr`its thread did not start` });
    own.postMessage(asked);
  });
}
