import type { Desk, DeskImage, Typeface } from '../exports/desk.ts';
import { exportFor, writeExport } from '../exports/index.ts';
import type { PaperId } from '../exports/papers/paper.ts';
import type { Id, Job } from '../job/types.ts';
import type { Problem } from '../problem.ts';
import { results } from '../results.ts';

/** What a file is written of, on a thread of its own that can be ended. */
export interface WritingAsked {
  readonly job: Job;
  readonly ending: string;
  readonly today: string;
  readonly papers: readonly PaperId[] | null;
  readonly images: ReadonlyArray<readonly [Id, DeskImage]>;
  /** Empty where no papers are written. */
  readonly typeface: Typeface | null;
}

/** The file, why there is none, or what went wrong with the program itself. */
export type WritingDone =
  | { readonly bytes: Uint8Array }
  | { readonly problem: Problem }
  | { readonly fault: string };

async function written(asked: WritingAsked): Promise<WritingDone> {
  const kind = exportFor(`x.${asked.ending}`);
  if (!kind.ok) return { problem: kind.problem };
  const images = new Map(asked.images);
  const desk: Desk = {
    today: asked.today,
    fonts: async () => asked.typeface!,
    image: async (id) => images.get(id) ?? null,
    ...(asked.papers ? { papers: new Set(asked.papers) } : {}),
  };
  const made = await writeExport(kind.value, results(asked.job), desk);
  return made.ok ? { bytes: made.value } : { problem: made.problem };
}

self.onmessage = async ({ data }: MessageEvent<WritingAsked>) => {
  const done = await written(data).catch((error: unknown): WritingDone => ({ fault: String(error) }));
  self.postMessage(done);
};
