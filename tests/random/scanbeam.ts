import type { Point, Ring } from '../../geometry/index.ts';

interface Segment {
  readonly ring: number;
  readonly low: Point;
  readonly high: Point;
  /** +1 where the ring climbs. */
  readonly up: 1 | -1;
}

/**
 * Area of the ground for which `wanted` holds, in another way altogether: cut the plane into horizontal beams at every
 * corner and crossing, within which lines do not cross, and add up trapezia from left to right. Straight sides only.
 * Nothing here shares code or method with geometry/; it has no grid and takes coordinates as they come.
 */
export function scanbeamArea(
  rings: readonly Ring[],
  wanted: (winding: readonly number[]) => boolean,
): number {
  const segments: Segment[] = [];
  const o = rings[0]?.[0] ?? { x: 0, y: 0 };
  rings.forEach((ring, r) => {
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      const a = { x: p.x - o.x, y: p.y - o.y };
      const b = { x: q.x - o.x, y: q.y - o.y };
      if (a.y < b.y) segments.push({ ring: r, low: a, high: b, up: 1 });
      if (a.y > b.y) segments.push({ ring: r, low: b, high: a, up: -1 });
    });
  });
  const ys = [...new Set([...segments.flatMap((s) => [s.low.y, s.high.y]), ...crossings(segments)])].sort(
    (a, b) => a - b,
  );
  let area = 0;
  for (let k = 1; k < ys.length; k++) {
    const [bottom, top] = [ys[k - 1]!, ys[k]!];
    const middle = (bottom + top) / 2;
    const here = segments
      .filter((s) => s.low.y <= bottom && s.high.y >= top)
      .map((s) => ({ s, x: xAt(s, middle) }))
      .sort((a, b) => a.x - b.x);
    const winding: number[] = rings.map(() => 0);
    for (let i = 0; i + 1 < here.length; i++) {
      winding[here[i]!.s.ring]! += here[i]!.s.up;
      if (wanted(winding)) area += (here[i + 1]!.x - here[i]!.x) * (top - bottom);
    }
  }
  return area;
}

const xAt = (s: Segment, y: number): number =>
  s.low.x + ((y - s.low.y) / (s.high.y - s.low.y)) * (s.high.x - s.low.x);

function crossings(segments: readonly Segment[]): number[] {
  const found: number[] = [];
  for (let i = 0; i < segments.length; i++) {
    for (let j = i + 1; j < segments.length; j++) {
      const [p, q] = [segments[i]!, segments[j]!];
      const low = Math.max(p.low.y, q.low.y);
      const high = Math.min(p.high.y, q.high.y);
      if (low >= high) continue;
      const before = xAt(p, low) - xAt(q, low);
      const after = xAt(p, high) - xAt(q, high);
      if (before * after < 0) found.push(low + ((high - low) * before) / (before - after));
    }
  }
  return found;
}
