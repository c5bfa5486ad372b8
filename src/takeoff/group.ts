import { boxOf, flattenRing, type Ring } from '../../geometry/index.ts';

/** Boxes that come within this of each other may touch. */
const MARGIN_M = 1e-3;

/** Groups outlines that may touch or overlap; each group is worked out by itself. Indices, in order. */
export function touchingGroups(rings: readonly Ring[]): number[][] {
  const boxes = rings.map((ring) => boxOf(flattenRing(ring, 0.05)));
  const group = rings.map((_, i) => i);
  const find = (i: number): number => (group[i] === i ? i : find(group[i]!));
  for (let i = 0; i < rings.length; i++) {
    for (let j = 0; j < i; j++) {
      const a = boxes[i]!;
      const b = boxes[j]!;
      const apart =
        a.minX > b.maxX + MARGIN_M ||
        b.minX > a.maxX + MARGIN_M ||
        a.minY > b.maxY + MARGIN_M ||
        b.minY > a.maxY + MARGIN_M;
      if (!apart) group[find(i)] = find(j);
    }
  }
  const groups = new Map<number, number[]>();
  rings.forEach((_, i) => {
    const root = find(i);
    groups.set(root, [...(groups.get(root) ?? []), i]);
  });
  return [...groups.values()];
}

/** Whether two outlines' boxes meet. */
export function boxesMeet(a: Ring, b: Ring): boolean {
  const p = boxOf(flattenRing(a, 0.05));
  const q = boxOf(flattenRing(b, 0.05));
  return !(p.minX > q.maxX || q.minX > p.maxX || p.minY > q.maxY || q.minY > p.maxY);
}
