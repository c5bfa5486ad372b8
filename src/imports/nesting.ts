import Flatbush from 'flatbush';
import {
  type Box,
  flattenRing,
  insidePoints,
  labelPoint,
  nearestOnRing,
  type Point,
  type Ring,
  ringArea,
  ringBox,
} from '../../geometry/index.ts';
import { slitOpen } from './slit.ts';

/** An outline and how deep it lies in others: even ones are ground, odd ones are taken out of it. */
export interface Nested<T> {
  readonly item: T;
  readonly ring: Ring;
  readonly depth: number;
  /** Which of the list it lies in directly; −1 for none. */
  readonly parent: number;
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
  const place = new Map<number, number>();
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
    const around = near.filter((j) => holds(points[j]!, inside, Math.sqrt(own.area)));
    const parent = around.length > 0 ? place.get(Math.max(...around))! : -1;
    place.set(i, nested.length);
    nested.push({ item: own.item, ring: own.ring, depth: around.length, parent });
  });
  return nested;
}

interface Sized {
  readonly ring: Ring;
  readonly area: number;
  readonly box: Box;
}

/** The same shape drawn again: as large, in the same place, every corner of each on the other's line. */
const isSame = (a: Sized, b: Sized, slack: number): boolean =>
  Math.abs(a.area - b.area) <= slack * Math.sqrt(a.area) &&
  (['minX', 'minY', 'maxX', 'maxY'] as const).every((k) => Math.abs(a.box[k] - b.box[k]) <= slack) &&
  liesOn(a.ring, b.ring, slack) &&
  liesOn(b.ring, a.ring, slack);

const liesOn = (points: Ring, ring: Ring, slack: number): boolean =>
  points.every((p) => (nearestOnRing(ring, p)?.distance ?? Infinity) <= slack);

/** Whether an outline lies within another: a place well inside it does, or for a thin one most of its corners. */
function holds(outer: readonly Point[], inner: readonly Point[], size: number): boolean {
  const label = labelPoint([ringArea(inner) > 0 ? [...inner] : [...inner].reverse()], size / 100);
  if (label) return insidePoints(outer, label.point);
  return inner.filter((p) => insidePoints(outer, p)).length > inner.length / 2;
}

/**
 * The same with islands on their own: where ground lies in what is taken out, the outline about it is cut open to it by a
 * hairline of a width, as a void would be taken out of the island too. Arcs of such outlines become points.
 */
export function withIslands<T>(nested: readonly Nested<T>[], width: number): Nested<T>[] {
  // Where outlines cross, what lies in which is not in turn: those are left as they are.
  const inTurn = (i: number) => i >= 0 && nested[i]!.depth % 2 === 1 && nested[i]!.parent >= 0;
  const opened = new Set(
    nested.flatMap((n) => (n.depth > 0 && n.depth % 2 === 0 && inTurn(n.parent) ? [n.parent] : [])),
  );
  if (opened.size === 0) return [...nested];
  const rings = nested.map((n) => n.ring);
  const straight = (ring: Ring): Ring => flattenRing(ring, Math.sqrt(Math.abs(ringArea(ring))) * 2e-5);
  for (const i of opened) {
    const { parent } = nested[i]!;
    rings[parent] = slitOpen(straight(rings[parent]!), straight(rings[i]!), width);
  }
  return nested.map((n, i) => ({ ...n, ring: rings[i]! })).filter((_, i) => !opened.has(i));
}
