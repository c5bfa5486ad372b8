import {
  flattenRing,
  type Point,
  pointOnSide,
  type Ring,
  sideOf,
  type Vertex,
} from '../../geometry/index.ts';
import type { SheetPoint } from '../units/types.ts';
import type { Cut, Id, Job, Slab, VoidShape } from './types.ts';

/** A slab's outline in sheet coordinates, with its arcs. */
export function slabRing(job: Job, slab: Slab): Ring {
  return slab.corners.map(({ cornerId, via }): Vertex => {
    const { x, y } = job.corners[cornerId]!;
    return { x, y, via };
  });
}

/** Index of the side of the slab that leaves a corner; −1 when there is none. */
export const sideIndex = (slab: Slab, cornerId: Id): number =>
  slab.corners.findIndex((c) => c.cornerId === cornerId);

/** A cut's points in sheet coordinates; points whose side is gone are left out. */
export function cutPath(job: Job, cut: Cut): SheetPoint[] {
  const slab = job.slabs[cut.slabId];
  const path: SheetPoint[] = [];
  for (const p of cut.points) {
    if (p.at === 'corner') {
      const corner = job.corners[p.cornerId];
      if (corner) path.push({ x: corner.x, y: corner.y });
      continue;
    }
    const k = slab ? sideIndex(slab, p.cornerId) : -1;
    if (slab && k >= 0) path.push(pointOnSide(sideOf(slabRing(job, slab), k), p.t));
  }
  return path;
}

/** A place on the sheet where a void is. */
export function voidPlace(shape: VoidShape): SheetPoint {
  switch (shape.type) {
    case 'line':
      return { x: (shape.a.x + shape.b.x) / 2, y: (shape.a.y + shape.b.y) / 2 };
    case 'circle':
    case 'rectangle':
      return shape.centre;
    case 'outline':
      return shape.corners[0]!;
  }
}

/** Points of an outline for drawing and picking; arcs within a fraction of its extent. */
export function outlinePoints(ring: Ring): Point[] {
  const xs = ring.map((v) => v.x);
  const ys = ring.map((v) => v.y);
  const extent = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), 1e-9);
  return flattenRing(ring, extent / 2000);
}

/** Corners go by letters round their slab: A, B … Z, A2 … */
export function cornerLetter(job: Job, cornerId: Id): string {
  for (const slab of Object.values(job.slabs)) {
    const k = slab.corners.findIndex((c) => c.cornerId === cornerId);
    if (k >= 0) return letter(k);
  }
  return '?';
}

const letter = (k: number): string =>
  `${String.fromCharCode(65 + (k % 26))}${k < 26 ? '' : Math.floor(k / 26) + 1}`;

/** Two corners by their letters, in the order of the alphabet. */
export const cornerPair = (job: Job, a: Id, b: Id): string =>
  [cornerLetter(job, a), cornerLetter(job, b)].sort().join('–');
