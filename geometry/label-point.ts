import polylabel from 'polylabel';
import type { Point } from './point.ts';

/** A point deep inside a region, and its distance to the nearest edge. */
export interface LabelPoint {
  readonly point: Point;
  readonly clearance: number;
}

/**
 * The pole of inaccessibility of a region given as counter-clockwise outer rings and clockwise holes: the
 * inner point farthest from every edge, to the precision given. Null when there is no ring of three points.
 */
export function labelPoint(rings: readonly Point[][], precision: number): LabelPoint | null {
  let best: LabelPoint | null = null;
  const holes = rings.filter((r) => signedArea(r) < 0);
  for (const outer of rings) {
    if (outer.length < 3 || signedArea(outer) <= 0) continue;
    const found = polylabel(
      [outer, ...holes].map((r) => r.map((p) => [p.x, p.y])),
      precision,
    );
    const point = { x: found[0]!, y: found[1]! };
    if (!best || found.distance > best.clearance) best = { point, clearance: found.distance };
  }
  return best;
}

function signedArea(ring: readonly Point[]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    twice += a.x * b.y - a.y * b.x;
  }
  return twice / 2;
}
