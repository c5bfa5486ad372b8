import { measureEdges } from './edge-measures.ts';
import { findFaces } from './faces.ts';
import { nodeLinework } from './linework.ts';
import type { Ring } from './ring.ts';

/**
 * Area of all ground for which `wanted` holds: any union, intersection or difference of outlines, arcs by their true
 * segments, ground covered twice counted once. Square of the unit of the coordinates, which must be finite.
 * @param wanted is told how often each ring winds around a piece of ground (0 where it does not)
 */
export function areaWhere(
  rings: readonly Ring[],
  wanted: (winding: (ring: number) => number) => boolean,
): number {
  const work = nodeLinework(rings, [], []);
  const faces = findFaces(work);
  const counts = faces.winding.map((w) => wanted((ring) => w.get(ring) ?? 0));
  let area = 0;
  measureEdges({ slabs: rings, cuts: [], voids: [] }, work).forEach((edge, e) => {
    if (counts[faces.faceOf[2 * e]!]) area += edge.area;
    if (counts[faces.faceOf[2 * e + 1]!]) area -= edge.area;
  });
  return area;
}
