import type { Results } from '../results.ts';

/** A kind of file that leaves the tool. One file each; heavy libraries are loaded when it is written. */
export interface Export {
  readonly ending: string;
  readonly label: string;
  readonly type: string;
  readonly write: (results: Results) => Promise<Uint8Array>;
}
