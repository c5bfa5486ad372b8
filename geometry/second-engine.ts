import polygonClipping from 'polygon-clipping';
import type { Zone } from './plan.ts';
import type { Point } from './point.ts';

/** Whether two engines that share no code came to the same net area of a zone. */
export type SecondOpinion = 'agree' | 'disagree' | 'no answer';

/** Relative difference below which two areas on the same grid are the same; both sum exact products. */
const SAME = 1e-9;

/**
 * Recomputes a zone's net area with polygon-clipping: face minus the union of the voids, on noded linework in
 * whole cells, which is the only input on which it was never seen to fail. Its answer is compared, not used.
 */
export function secondOpinion(zone: Zone): SecondOpinion {
  const ring = (points: readonly Point[]): Array<[number, number]> => points.map((p) => [p.x, p.y]);
  const [outer, ...inner] = [...zone.cells.face()].sort(
    (a, b) => Math.abs(twiceArea(b)) - Math.abs(twiceArea(a)),
  );
  if (!outer) return zone.cells.net === 0 ? 'agree' : 'disagree';
  const outlines = zone.cells.voids();
  const voids = zone.voids.map(({ void: v }) => outlines[v]!).filter((points) => points.length > 2);
  try {
    const net = polygonClipping.difference(
      [ring(outer), ...inner.map(ring)],
      ...voids.map((points): [Array<[number, number]>] => [ring(points)]),
    );
    let twice = 0;
    for (const polygon of net) {
      polygon.forEach((points, k) => {
        const area = Math.abs(twiceArea(points.map(([x, y]) => ({ x, y }))));
        twice += k === 0 ? area : -area;
      });
    }
    const whole = Math.abs(twiceArea(outer)) / 2;
    return Math.abs(twice / 2 - zone.cells.net) <= SAME * whole ? 'agree' : 'disagree';
  } catch {
    return 'no answer';
  }
}

function twiceArea(points: readonly Point[]): number {
  let twice = 0;
  const o = points[0];
  if (!o) return 0;
  for (let i = 1; i + 1 < points.length; i++) {
    const a = points[i]!;
    const b = points[i + 1]!;
    twice += (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
  }
  return twice;
}
