import Flatbush from 'flatbush';
import { flattenRing, insidePoints, type Point, type Ring, ringArea, ringBox } from '../../geometry/index.ts';

/** An outline and how deep it lies in others: even ones are ground, odd ones are taken out of it. */
export interface Nested<T> {
  readonly item: T;
  readonly ring: Ring;
  readonly depth: number;
}

/**
 * How outlines lie within each other, the largest first. Outlines drawn twice count once: a hatch over its border, a line
 * on two layers.
 */
export function nest<T>(items: ReadonlyArray<{ readonly item: T; readonly ring: Ring }>): Nested<T>[] {
  const sized = items
    .map(({ item, ring }) => ({ item, ring, area: Math.abs(ringArea(ring)), box: ringBox(ring) }))
    .filter((s) => s.area > 0)
    .sort((a, b) => b.area - a.area);
  if (sized.length === 0) return [];
  const index = new Flatbush(sized.length);
  for (const { box } of sized) index.add(box.minX, box.minY, box.maxX, box.maxY);
  index.finish();
  const points = sized.map(({ ring, area }) => flattenRing(ring, Math.sqrt(area) * 1e-4));
  const dropped = new Set<number>();
  const nested: Nested<T>[] = [];
  sized.forEach((own, i) => {
    const { minX, minY, maxX, maxY } = own.box;
    const slack = Math.sqrt(own.area) * 1e-6;
    const near = index
      .search(minX - slack, minY - slack, maxX + slack, maxY + slack)
      .filter((j) => j < i && !dropped.has(j));
    if (near.some((j) => isSame(own, sized[j]!, slack))) {
      dropped.add(i);
      return;
    }
    const inside = points[i]!;
    const around = near.filter((j) => holds(points[j]!, inside));
    nested.push({ item: own.item, ring: own.ring, depth: around.length });
  });
  return nested;
}

type Sized = { readonly area: number; readonly box: ReturnType<typeof ringBox> };

const isSame = (a: Sized, b: Sized, slack: number): boolean =>
  Math.abs(a.area - b.area) <= slack * Math.sqrt(a.area) &&
  (['minX', 'minY', 'maxX', 'maxY'] as const).every((k) => Math.abs(a.box[k] - b.box[k]) <= slack);

/** Whether an outline lies within another: all but a few of its points do, as corners may lie on the other's line. */
function holds(outer: readonly Point[], inner: readonly Point[]): boolean {
  const middles = inner.map((p, i) => {
    const q = inner[(i + 1) % inner.length]!;
    return { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
  });
  const tried = [...inner, ...middles];
  const within = tried.filter((p) => insidePoints(outer, p)).length;
  return within > tried.length * 0.6;
}
