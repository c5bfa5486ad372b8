import { fail, type Result } from '../../geometry/result.ts';
import type { Imported, ImportOptions } from '../imports/index.ts';
import type { Problem } from '../problem.ts';
import { language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import type { ReadingAsked, ReadingDone } from './import-worker.ts';
import { store } from './store.ts';

/** A file that takes longer is ended: no drawing of a yard does. */
const MOST_MS = 60_000;

let end: (() => void) | null = null;

/** Ends the reading of a file. */
export const stopReading = (): void => end?.();

/** Reads a file beside all that goes on; null when it was stopped. */
export async function readBeside(
  bytes: Uint8Array,
  name: string,
  options: ImportOptions,
): Promise<Result<Imported, Problem> | null> {
  stopReading();
  const worker = new Worker(new URL('./import-worker.ts', import.meta.url), {
    type: 'module',
    name: language,
  });
  store.setState({ reading: name });
  try {
    return await new Promise<Result<Imported, Problem> | null>((resolve) => {
      const broken = (detail: string) => resolve(fail({ code: 'file/unreadable', file: name, detail }));
      const timer = setTimeout(() => broken(tr`it takes longer than a minute`), MOST_MS);
      end = () => {
        clearTimeout(timer);
        resolve(null);
      };
      worker.onmessage = ({ data }: MessageEvent<ReadingDone>) => {
        clearTimeout(timer);
        if ('fault' in data) broken(tr`it is damaged in a way that stops the reader`);
        else resolve(data);
      };
      // A thread that ran out of room ends without a word of its own.
      worker.onerror = () => {
        clearTimeout(timer);
        broken(tr`it needs more room than there is`);
      };
      const asked: ReadingAsked = { bytes, name, options };
      worker.postMessage(asked);
    });
  } finally {
    end = null;
    worker.terminate();
    store.setState({ reading: null });
  }
}
