import { scratch } from './columns.ts';
import { measureEdges } from './edge-measures.ts';
import { findFaces } from './faces.ts';
import { nodeLinework } from './linework.ts';
import type { Ring } from './ring.ts';
import { timesRound } from './winding.ts';

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
  const { halfEdges, winding } = findFaces(work);
  const { faceOf } = halfEdges;
  const counts = winding.map((w) => wanted((ring) => timesRound(w, ring)));
  const mark = scratch.mark();
  const measures = measureEdges(work, scratch);
  let area = 0;
  for (let e = 0; e < work.edgeCount; e++) {
    if (counts[faceOf[2 * e]!]) area += measures.area[e]!;
    if (counts[faceOf[2 * e + 1]!]) area -= measures.area[e]!;
  }
  scratch.release(mark);
  return area;
}

/**
 * Area of the part of a region that lies under any of the covers, ground under several counted once.
 * @param region outlines, outer ones counter-clockwise, holes clockwise
 */
export function coveredArea(region: readonly Ring[], covers: readonly Ring[]): number {
  if (covers.length === 0) return 0;
  return areaWhere([...region, ...covers], (winding) => {
    let within = 0;
    for (let i = 0; i < region.length; i++) within += winding(i);
    return within > 0 && covers.some((_, i) => winding(region.length + i) !== 0);
  });
}
