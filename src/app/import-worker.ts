import type { Result } from '../../geometry/result.ts';
import { type Imported, type ImportOptions, importFile } from '../imports/index.ts';
import type { Problem } from '../problem.ts';
import { randomId } from './random-id.ts';

/** A file from outside, to be read on a thread of its own that can be ended. */
export interface ReadingAsked {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly options: ImportOptions;
}

/** What the file holds, why it is refused, or what the program could not bear. */
export type ReadingDone = Result<Imported, Problem> | { readonly fault: string };

self.onmessage = async ({ data: { bytes, name, options } }: MessageEvent<ReadingAsked>) => {
  const done = await importFile(bytes, name, options, randomId).catch(
    (error: unknown): ReadingDone => ({ fault: String(error) }),
  );
  self.postMessage(done);
};
