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

/** The finest grid that holds the points about the middle of their box; coarser by powers of two above ±512 units. */
export function gridFor(xs: ArrayLike<number>, ys: ArrayLike<number>): Grid {
  if (xs.length === 0) return { originX: 0, originY: 0, cell: FINEST_CELL };
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i]!;
    const y = ys[i]!;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  const reach = Math.max(maxX - minX, maxY - minY) / 2;
  let cell = FINEST_CELL;
  while (reach / cell > MAX_CELL) cell *= 2;
  // The origin sits on a whole cell: shifting whole cells never changes how a point rounds.
  const snap = (v: number) => Math.round(v / cell) * cell;
  return { originX: snap((minX + maxX) / 2), originY: snap((minY + maxY) / 2), cell };
}
