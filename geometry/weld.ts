import Flatbush from 'flatbush';
import { distance, lerp, type Point } from './point.ts';
import { fractionOnSide, type Ring, type Vertex } from './ring.ts';

/** A ring with corners moved and added, and the side of the ring it was made from that each of its sides lies on. */
export interface WeldedRing {
  readonly ring: Ring;
  readonly sides: readonly number[];
}

/**
 * Brings outlines that were traced twice by eye together: a corner within `tolerance` of an earlier outline moves onto its
 * corner, or else onto its straight side; and a straight side that passes an earlier outline's corner that closely is led
 * through it. The first of two outlines never moves. With a tolerance of five times the deviation of a traced corner hardly any
 * length is put down to the wrong cause; far above the error it pulls apart what belongs apart, so keep it small.
 */
export function weldRings(rings: readonly Ring[], tolerance: number): WeldedRing[] {
  if (!(tolerance > 0) || rings.length < 2) return rings.map(unwelded);
  const done: WeldedRing[] = [];
  for (const ring of rings) {
    const earlier = done.flatMap(({ ring: r }) => [...r.keys()].map((k) => ({ ring: r, k })));
    done.push(earlier.length === 0 ? unwelded(ring) : weld(ring, earlier, tolerance));
  }
  return done;
}

const unwelded = (ring: Ring): WeldedRing => ({ ring, sides: ring.map((_, k) => k) });

/** Side k of a ring that is settled already; its first corner is at `ring[k]`. */
interface Settled {
  readonly ring: Ring;
  readonly k: number;
}

function weld(ring: Ring, settled: readonly Settled[], tolerance: number): WeldedRing {
  const index = new Flatbush(settled.length);
  for (const { ring: r, k } of settled) {
    const a = r[k]!;
    const b = r[(k + 1) % r.length]!;
    index.add(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.max(a.x, b.x), Math.max(a.y, b.y));
  }
  index.finish();
  const about = (a: Point, b: Point): Settled[] =>
    index
      .search(
        Math.min(a.x, b.x) - tolerance,
        Math.min(a.y, b.y) - tolerance,
        Math.max(a.x, b.x) + tolerance,
        Math.max(a.y, b.y) + tolerance,
      )
      .map((i) => settled[i]!);
  const moved = ring.map((v): Vertex => ({ ...settle(v, about(v, v), tolerance), via: v.via ?? null }));
  const out: Vertex[] = [];
  const sides: number[] = [];
  moved.forEach((a, k) => {
    const b = moved[(k + 1) % moved.length]!;
    out.push(a);
    sides.push(k);
    if (a.via) return;
    for (const p of passed(a, b, about(a, b), tolerance)) {
      out.push(p);
      sides.push(k);
    }
  });
  return { ring: out, sides };
}

function settle(p: Point, near: readonly Settled[], tolerance: number): Point {
  let best: Point | null = null;
  let least = tolerance;
  for (const { ring, k } of near) {
    for (const q of [ring[k]!, ring[(k + 1) % ring.length]!]) {
      const d = distance(p, q);
      if (d <= least) {
        least = d;
        best = q;
      }
    }
  }
  if (best) return { x: best.x, y: best.y };
  least = tolerance;
  for (const { ring, k } of near) {
    if (ring[k]!.via) continue;
    const [a, b] = [ring[k]!, ring[(k + 1) % ring.length]!];
    const q = lerp(a, b, fractionOnSide({ a, b, arc: null }, p));
    const d = distance(p, q);
    if (d <= least) {
      least = d;
      best = q;
    }
  }
  return best ?? { x: p.x, y: p.y };
}

/** Settled corners that the side a–b runs past within the tolerance, in order, other than its own ends. */
function passed(a: Point, b: Point, near: readonly Settled[], tolerance: number): Point[] {
  const found = new Map<number, Point>();
  for (const { ring, k } of near) {
    const p = ring[k]!;
    if (distance(p, a) <= tolerance || distance(p, b) <= tolerance) continue;
    const t = fractionOnSide({ a, b, arc: null }, p);
    if (distance(p, lerp(a, b, t)) <= tolerance) found.set(t, { x: p.x, y: p.y });
  }
  return [...found].sort(([s], [t]) => s - t).map(([, p]) => p);
}
