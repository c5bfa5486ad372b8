import type { Part } from './edge-measures.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';

/** Outlines, the lines that cut them, and what is left out. Indices into these lists name things in the answer. */
export interface Plan {
  readonly slabs: readonly Ring[];
  /** Open paths; each splits only the slab it belongs to. */
  readonly cuts: ReadonlyArray<{ readonly slab: number; readonly path: readonly Point[] }>;
  readonly voids: readonly Ring[];
  /** Slabs traced this close to each other touch (see `weldRings`); 0 when absent. */
  readonly weld?: number;
}

/** Why a stretch of a zone's boundary is there. */
export type Cause =
  | { readonly kind: 'side'; readonly side: number }
  | { readonly kind: 'slab'; readonly slab: number; readonly side: number }
  | { readonly kind: 'cut'; readonly cut: number; readonly zone: number }
  | { readonly kind: 'void'; readonly void: number };

/** All of a zone's boundary that has one cause. */
export interface Stretch {
  readonly cause: Cause;
  /** True length, arcs included. */
  readonly length: number;
  /** Runs of points, in order, with the zone on the left. For drawing. */
  readonly runs: readonly Point[][];
  /** Side by side, what the uncertainty of areas and lengths is worked out from. */
  readonly parts: readonly Part[];
}

/** A face of a slab between its outline and its cuts. */
export interface Zone {
  readonly slab: number;
  /** Area of the whole face, voids included. */
  readonly faceArea: number;
  /** Area of the face that some void covers, counted once where voids overlap. */
  readonly voidArea: number;
  /** faceArea − voidArea. */
  readonly netArea: number;
  /** How much of the face each void covers; overlapping voids count in both. */
  readonly voids: ReadonlyArray<{ readonly void: number; readonly area: number }>;
  readonly stretches: readonly Stretch[];
  /** Length of all stretches. */
  readonly boundary: number;
  /** Outlines of the net area: outer ones counter-clockwise, holes clockwise. */
  readonly netRings: readonly Point[][];
  /** Outlines of the face, voids ignored. */
  readonly faceRings: readonly Point[][];
  /** The outlines of the net area with their true arcs: `ringArea` over all of them is `netArea` to rounding. */
  readonly netOutlines: readonly Ring[];
  /** The same outlines in whole cells: what a second engine is given to check the areas. */
  readonly cells: {
    readonly net: number;
    /** The outlines of the face, voids ignored. */
    readonly face: () => readonly Point[][];
    /** The outline of each void on the plan, by its index; only those of `voids` touch this zone. */
    readonly voids: () => readonly Point[][];
  };
  /** No more than this much of netArea can be owed to lines that the grid had to bend; 0 where it bent none. */
  readonly bentArea: number;
}

/** What a plan comes to. */
export interface Partition {
  /** The plan that was measured. */
  readonly plan: Plan;
  readonly zones: readonly Zone[];
  /** For each slab: area inside its outline, of that under voids, and what is left. */
  readonly slabs: ReadonlyArray<{
    readonly area: number;
    readonly voidArea: number;
    readonly netArea: number;
  }>;
  /** For each void, how much of it lies on slabs. */
  readonly voids: ReadonlyArray<{ readonly insideArea: number }>;
  /** Pairs of slabs that cover the same ground, with the area covered twice. */
  readonly overlaps: ReadonlyArray<{ readonly a: number; readonly b: number; readonly area: number }>;
  /** Edge of one grid cell: no line was moved by more than about this much. */
  readonly cell: number;
}

/** A coordinate that is not a number, or beyond 1e9 units. */
export interface PlanProblem {
  readonly code: 'plan/not-finite';
  readonly kind: 'slab' | 'cut' | 'void';
  readonly index: number;
}
