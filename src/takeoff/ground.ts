import {
  circleRing,
  type Frame,
  type Ring,
  rectangleRing,
  stripRing,
  toFrame,
  type Vertex,
} from '../../geometry/index.ts';
import { cutPath, slabRing } from '../job/outline.ts';
import type { Cut, Job, Sheet, Slab, Void } from '../job/types.ts';
import type { GroundPoint } from '../units/types.ts';
import { solvedFit } from './fits/fits.ts';

/** What takes a sheet's coordinates to metres on the ground (y up), or null while the sheet has no way there. */
export const groundFrame = (job: Job, sheet: Sheet): Frame | null => solvedFit(job, sheet)?.frame ?? null;

/** Takes an outline with its arcs to the ground. */
const groundRing = (ring: Ring, frame: Frame): Ring =>
  ring.map((v): Vertex => ({ ...toFrame(frame, v), via: v.via ? toFrame(frame, v.via) : null }));

/** A slab's outline on the ground. */
export const slabOnGround = (job: Job, slab: Slab, frame: Frame): Ring =>
  groundRing(slabRing(job, slab), frame);

/** A cut's path on the ground. */
export const cutOnGround = (job: Job, cut: Cut, frame: Frame): GroundPoint[] =>
  cutPath(job, cut).map((p) => toFrame(frame, p));

/** A void's outline on the ground. */
export function voidOnGround(v: Void, frame: Frame): Ring {
  const { shape } = v;
  switch (shape.type) {
    case 'line':
      return stripRing(toFrame(frame, shape.a), toFrame(frame, shape.b), shape.widthM);
    case 'circle':
      return circleRing(toFrame(frame, shape.centre), shape.radiusM);
    case 'rectangle':
      return rectangleRing(toFrame(frame, shape.centre), shape.lengthM, shape.widthM, shape.angleRad);
    case 'outline':
      return groundRing(shape.corners, frame);
  }
}
