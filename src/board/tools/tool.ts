import type { Frame } from '../../../geometry/index.ts';
import type { Edit } from '../../job/edits/index.ts';
import type { Id, Job, Surface } from '../../job/types.ts';
import type { Problem } from '../../problem.ts';
import type { Takeoff } from '../../takeoff/zone.ts';
import type { Metres, SheetPoint } from '../../units/types.ts';
import type { Snapped } from '../snapping.ts';

/** Something on the board that can be selected. */
export type Item =
  | { readonly kind: 'zone'; readonly id: Id }
  | { readonly kind: 'void'; readonly id: Id }
  | { readonly kind: 'cut'; readonly id: Id }
  | { readonly kind: 'corner'; readonly id: Id; readonly slabId: Id };

/** What is selected: one thing, or several to be handled as one. */
export type Selection = Item | { readonly kind: 'several'; readonly items: readonly Item[] };

/** What a tool is told. Places come snapped; `raw` is where the pointer truly is. */
export type ToolInput =
  | {
      readonly type: 'hover' | 'tap' | 'press' | 'drag' | 'release';
      readonly at: Snapped;
      readonly raw: SheetPoint;
    }
  /** Enter, a double click, or the Finish button. */
  | { readonly type: 'finish' }
  /** Escape: all of what is in hand is dropped. */
  | { readonly type: 'cancel' }
  /** Undo: the last step of what is in hand is dropped. */
  | { readonly type: 'back' }
  /** A length typed into one of the tool's entries. */
  | { readonly type: 'entry'; readonly id: string; readonly lengthM: Metres }
  /** One of the tool's options was switched. */
  | { readonly type: 'option'; readonly id: string };

/** What a tool may look at. */
export interface ToolContext {
  readonly job: Job;
  readonly takeoff: Takeoff;
  readonly sheetId: Id;
  /** Sheet to ground; null while the sheet has no scale. */
  readonly frame: Frame | null;
  /** Reach of the pointer in sheet units. */
  readonly reach: number;
  readonly selection: Selection | null;
  /** Shift is held: what is tapped is added to what is selected. */
  readonly adding: boolean;
  readonly surface: Surface;
  readonly newId: (prefix: string) => Id;
}

/** What comes of an input. */
export interface ToolStep<S> {
  readonly state: S;
  /** Changes to make as one step of history. */
  readonly edits?: readonly Edit[];
  /** Changes to show while the pointer moves; never kept. */
  readonly preview?: readonly Edit[];
  readonly select?: Selection | null;
  readonly problem?: Problem;
  /** The input is not for this tool: the board pans instead. */
  readonly pass?: boolean;
}

/** Something to draw over the board while a tool is at work; sheet coordinates. */
export type Mark =
  | {
      readonly kind: 'line';
      readonly points: readonly SheetPoint[];
      readonly style: 'hand' | 'guide' | 'soft';
    }
  | {
      readonly kind: 'dot';
      readonly at: SheetPoint;
      readonly style: 'corner' | 'start' | 'snap' | 'handle' | 'middle';
    }
  | { readonly kind: 'circle'; readonly centre: SheetPoint; readonly radius: number }
  | { readonly kind: 'measure'; readonly a: SheetPoint; readonly b: SheetPoint; readonly lengthM: Metres }
  | { readonly kind: 'note'; readonly at: SheetPoint; readonly text: string };

/** A length that can be typed while the tool is at work. */
export interface Entry {
  readonly id: string;
  readonly label: string;
  readonly valueM: Metres | null;
}

/** A switch of the tool. */
export interface Option {
  readonly id: string;
  readonly label: string;
  readonly on: boolean;
  readonly key?: string;
}

/**
 * A tool of the board: pure, one file, one line in the registry. What is in hand is in its state and nowhere
 * else; a job changes only by the edits it returns.
 */
export interface Tool<S> {
  readonly id: string;
  readonly label: string;
  readonly key: string;
  readonly start: S;
  /** Draws to sides and corners only from close by, as for what stands free on a slab. */
  readonly snapsClose?: boolean;
  readonly on: (state: S, input: ToolInput, context: ToolContext) => ToolStep<S>;
  readonly marks: (state: S, context: ToolContext) => Mark[];
  /** One sentence: what to do next. */
  readonly hint: (state: S, context: ToolContext) => string;
  /** Corners of the shape in hand, for snapping. */
  readonly path: (state: S) => readonly SheetPoint[];
  readonly entries: (state: S, context: ToolContext) => readonly Entry[];
  readonly options: (state: S, context: ToolContext) => readonly Option[];
  /** What an arrow key does to what is selected: so many metres to the right and up as it is seen; pixels without scale. */
  readonly nudge?: (rightM: Metres, upM: Metres, context: ToolContext) => readonly Edit[];
  /** Whether something is in hand that undo should take back first. */
  readonly busy: (state: S) => boolean;
  /** Whether Finish would do something. */
  readonly canFinish: (state: S) => boolean;
}
