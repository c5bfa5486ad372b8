import type { Edit } from '../job/edits/index.ts';
import type { Id, Sheet } from '../job/types.ts';
import type { Layer } from './drawing.ts';

/** A picture that belongs to an imported sheet. */
export interface ImportedImage {
  readonly id: Id;
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** What a file adds to a job. */
export interface Imported {
  readonly sheet: Sheet;
  /** The sheet, its slabs and its voids, in this order. */
  readonly edits: readonly Edit[];
  readonly image: ImportedImage | null;
  /** What a person should know about it, in sentences. */
  readonly notes: readonly string[];
  readonly layers: readonly Layer[];
  /** Pages of a document; 1 of anything else. */
  readonly pages: number;
}

/** Makes ids; passed in so that the same file gives the same job. */
export type NewId = (prefix: string) => Id;
