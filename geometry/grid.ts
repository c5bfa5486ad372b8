import { type Box, boxOf, type Point } from './point.ts';

/** Finest cell: 2⁻¹⁴ of the unit, 0.061 mm when the unit is the metre. A power of two, so that scaling is exact. */
export const FINEST_CELL = 2 ** -14;

/** Largest cell coordinate: products of two differences stay below 2^53. */
const MAX_CELL = 2 ** 23;

/** A local origin and the size of a cell. */
export interface Grid {
  readonly originX: number;
  readonly originY: number;
  readonly cell: number;
}

/** The finest grid that holds the box about its own middle; coarser by powers of two above ±512 units. */
export function gridFor(points: Iterable<Point>): Grid {
  const box: Box = boxOf(points);
  const reach = Math.max(box.maxX - box.minX, box.maxY - box.minY) / 2;
  let cell = FINEST_CELL;
  while (reach / cell > MAX_CELL) cell *= 2;
  // The origin sits on a whole cell: shifting whole cells never changes how a point rounds.
  const snap = (v: number) => Math.round(v / cell) * cell;
  return { originX: snap((box.minX + box.maxX) / 2), originY: snap((box.minY + box.maxY) / 2), cell };
}

/** Cell coordinate of x. */
export const cellX = (grid: Grid, x: number): number => Math.round((x - grid.originX) / grid.cell);

/** Cell coordinate of y. */
export const cellY = (grid: Grid, y: number): number => Math.round((y - grid.originY) / grid.cell);
