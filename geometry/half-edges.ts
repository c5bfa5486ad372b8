/** Half-edge 2e runs along edge e from `from` to `to`, 2e + 1 back; each has its face on the left. */
export interface HalfEdges {
  /** How many faces there are; face 0 is everything outside. */
  readonly count: number;
  /** Face left of each half-edge. */
  readonly faceOf: Int32Array;
  /** Next half-edge around the same face. */
  readonly next: Int32Array;
  /** The half-edges that have face f on their left: those from `firstBorder[f]` up to `firstBorder[f + 1]`. */
  readonly borders: Int32Array;
  readonly firstBorder: Int32Array;
}

/** The other half of the same edge. */
export const twin = (h: number): number => h ^ 1;
