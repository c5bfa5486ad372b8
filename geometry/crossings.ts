import { findFaces } from './faces.ts';
import { nodeLinework } from './linework.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import { flattenRing } from './ring.ts';

/**
 * A point where an outline crosses or overlaps itself, or null when it is simple. Touching itself at a point
 * from inside counts as a crossing: an outline that a person drew never needs it.
 */
export function selfCrossing(ring: Ring): Point | null {
  if (ring.length < 2) return null;
  const work = nodeLinework([ring], [], []);
  const degree = new Int32Array(work.vertexCount);
  const at = (v: number): Point => ({ x: work.grid.originX + work.x[v]!, y: work.grid.originY + work.y[v]! });
  for (let e = 0; e < work.edgeCount; e++) {
    if (work.nextUse[work.firstUse[e]!]! >= 0) return at(work.from[e]!);
    degree[work.from[e]!]! += 1;
    degree[work.to[e]!]! += 1;
  }
  const v = degree.findIndex((d) => d > 2);
  return v < 0 ? null : at(v);
}

/** Whether the outline encloses any ground at all on the grid. */
export function enclosesGround(ring: Ring): boolean {
  if (ring.length < 2 || flattenRing(ring, 0.01).length < 3) return false;
  return findFaces(nodeLinework([ring], [], [])).halfEdges.count > 1;
}
