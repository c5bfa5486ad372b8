import type { Id } from '../job/types.ts';
import type { PaperId } from './papers/paper.ts';

/** A picture as its file holds it. */
export interface DeskImage {
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** A typeface's files: what is in them, or where they are on this machine. */
export interface Typeface {
  readonly normal: Uint8Array | string;
  readonly bold: Uint8Array | string;
}

/** What writing a file needs besides the job: it differs between browser and command line. */
export interface Desk {
  /** The day, YYYY-MM-DD, for papers that bear none of their own. */
  readonly today: string;
  /** The files of the typeface that is set into papers. */
  readonly fonts: () => Promise<Typeface>;
  /** A picture of the job; null where it is not at hand. */
  readonly image: (id: Id) => Promise<DeskImage | null>;
  /** Which papers to put together; all that there is something to say on where absent. */
  readonly papers?: ReadonlySet<PaperId>;
}
