import type { Problem } from '../problem.ts';
import type { Results } from '../results.ts';
import type { Desk } from './desk.ts';

/** A kind of file that leaves the tool. One file each; heavy libraries are loaded when it is written. */
export interface Export {
  readonly ending: string;
  readonly label: string;
  readonly type: string;
  /** Why there is nothing of this kind to write; null where there is. */
  readonly refuse?: (results: Results) => Problem | null;
  /** Null where there turns out to be nothing to say. */
  readonly write: (results: Results, desk: Desk) => Promise<Uint8Array | null>;
}
