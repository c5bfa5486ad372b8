/**
 * Plane geometry of slabs: outlines with straight and arc sides, split into zones by cuts, less voids, with
 * every stretch of boundary attributed. Unit-free (lengths come back in the unit that went in), y up,
 * counter-clockwise positive, no DOM.
 */
export * from './arc.ts';
export * from './area-where.ts';
export * from './band.ts';
export * from './carry.ts';
export { enclosesGround, selfCrossing } from './crossings.ts';
export type { Part } from './edge-measures.ts';
export * from './equal-area.ts';
export * from './figure.ts';
export * from './frame.ts';
export * from './geodesic.ts';
export * from './homography.ts';
export * from './label-point.ts';
export * from './lens.ts';
export * from './nearest.ts';
export * from './offsets.ts';
export * from './once.ts';
export { partition } from './partition.ts';
export * from './plan.ts';
export * from './point.ts';
export * from './result.ts';
export * from './ring.ts';
export * from './scale.ts';
export { type SecondOpinion, secondOpinion } from './second-engine.ts';

export * from './site.ts';
export * from './uncertainty.ts';
export * from './weld.ts';
