import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fail, ok, type Result } from '../../geometry/result.ts';
import type { Desk } from '../exports/desk.ts';
import { PAPER_IDS, type PaperId } from '../exports/papers/paper.ts';
import type { JobFile } from '../job/types.ts';
import type { Problem } from '../problem.ts';

const { resolve } = createRequire(import.meta.url);
const typeface = (name: string): string => resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`);

/** The papers that are named, with commas between; all where nothing is said. */
export function papersNamed(names: string | undefined): Result<ReadonlySet<PaperId> | undefined, Problem> {
  if (names === undefined) return ok(undefined);
  const wanted = names.split(',').map((name) => name.trim());
  const strange = wanted.find((name) => !PAPER_IDS.some((id) => id === name));
  return strange === undefined
    ? ok(new Set(wanted as PaperId[]))
    : fail({ code: 'import/option', option: `--papers ${strange}`, expected: PAPER_IDS.join(', ') });
}

/** The day where the machine is, YYYY-MM-DD. */
const localDay = (now: Date): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-');

/** What writing a file needs, on a machine: pictures are in the job's file or beside it. */
export function deskFor(path: string, { images }: JobFile, papers: ReadonlySet<PaperId> | undefined): Desk {
  return {
    today: localDay(new Date()),
    fonts: async () => ({
      normal: typeface('DejaVuSansCondensed'),
      bold: typeface('DejaVuSansCondensed-Bold'),
    }),
    image: async (id) => {
      const image = images[id];
      if (!image) return null;
      try {
        const bytes =
          'base64' in image
            ? Buffer.from(image.base64, 'base64')
            : readFileSync(join(dirname(path), image.file));
        return { type: image.type, bytes: new Uint8Array(bytes) };
      } catch {
        return null;
      }
    },
    ...(papers ? { papers } : {}),
  };
}
