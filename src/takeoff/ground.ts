import {
  circleRing,
  type Ring,
  rectangleRing,
  type Similarity,
  stripRing,
  transform,
  type Vertex,
} from '../../geometry/index.ts';
import { cutPath, slabRing } from '../job/outline.ts';
import type { Cut, Job, Sheet, Slab, Void } from '../job/types.ts';
import type { GroundPoint } from '../units/types.ts';

/**
 * What takes a sheet's coordinates to metres on the ground (y up), or null while the sheet has no scale.
 * Several known lengths give one scale by least squares: Σ d·L / Σ d².
 */
export function groundFrame(sheet: Sheet): Similarity | null {
  const { fit, picture } = sheet;
  if (!fit) return null;
  if (fit.kind === 'metric') return { a: 1, b: 0, e: 0, f: 0, mirror: false };
  let products = 0;
  let squares = 0;
  for (const { a, b, lengthM } of fit.lengths) {
    const d = Math.hypot(b.x - a.x, b.y - a.y);
    products += d * lengthM;
    squares += d * d;
  }
  const scale = products / squares;
  if (!(scale > 0 && Number.isFinite(scale))) return null;
  // Pictures have y down: mirror, and put the ground's origin at the picture's lower left.
  return { a: scale, b: 0, e: 0, f: scale * (picture?.heightPx ?? 0), mirror: true };
}

/** Takes an outline with its arcs to the ground. */
const groundRing = (ring: Ring, frame: Similarity): Ring =>
  ring.map((v): Vertex => ({ ...transform(frame, v), via: v.via ? transform(frame, v.via) : null }));

/** A slab's outline on the ground. */
export const slabOnGround = (job: Job, slab: Slab, frame: Similarity): Ring =>
  groundRing(slabRing(job, slab), frame);

/** A cut's path on the ground. */
export const cutOnGround = (job: Job, cut: Cut, frame: Similarity): GroundPoint[] =>
  cutPath(job, cut).map((p) => transform(frame, p));

/** A void's outline on the ground. */
export function voidOnGround(v: Void, frame: Similarity): Ring {
  const { shape } = v;
  switch (shape.type) {
    case 'line':
      return stripRing(transform(frame, shape.a), transform(frame, shape.b), shape.widthM);
    case 'circle':
      return circleRing(transform(frame, shape.centre), shape.radiusM);
    case 'rectangle':
      return rectangleRing(transform(frame, shape.centre), shape.lengthM, shape.widthM, shape.angleRad);
    case 'outline':
      return groundRing(shape.corners, frame);
  }
}
