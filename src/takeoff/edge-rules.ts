import type { Beyond, VoidKind } from '../job/types.ts';
import { commonPractice, type Source } from '../working/source.ts';

/** What is done along an edge before the roller comes. */
export interface EdgeRule {
  /** Cut in with a brush. */
  readonly brushed: boolean;
  /** Taped, so that what stands beyond stays clean. */
  readonly masked: boolean;
}

const both: EdgeRule = { brushed: true, masked: true };
const brush: EdgeRule = { brushed: true, masked: false };
const neither: EdgeRule = { brushed: false, masked: false };

/** By what stands beyond a slab's side. A side nobody has described is brushed: better a length too many than one forgotten. */
export const SIDE_RULES: Readonly<Record<Beyond | 'unknown', EdgeRule>> = {
  open: neither,
  wall: both,
  fence: brush,
  kerb: both,
  planting: brush,
  threshold: both,
  slab: both,
  unknown: brush,
};

/** By what is taken out. */
export const VOID_RULES: Readonly<Record<VoidKind, EdgeRule>> = {
  drain: both,
  post: brush,
  pit: brush,
  planter: brush,
  plinth: both,
  other: brush,
};

/** Between two zones: a line is cut in and taped only where the coating changes. */
export const cutRule = (sameCoating: boolean): EdgeRule => (sameCoating ? neither : both);

export const EDGE_RULES_SOURCE: Source = commonPractice;
