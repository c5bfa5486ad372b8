import { distance, nearestOnRing, type Point, type Ring, ringArea } from '../../geometry/index.ts';

/** Width of a slit: four times the grid's cell, so that its two sides stay apart; a metre of it is 0.00025 m². */
const SLIT_M = 0.00025;

/**
 * An outline with a hole cut open to it by a hairline, for a hole that something else lies in: as a void it would be
 * taken out of that as well. Straight sides only. The hairline adds twice its length to the edge.
 */
export function slitOpen(outer: Ring, hole: Ring, width = SLIT_M): Ring {
  const out = ringArea(outer) > 0 ? [...outer] : [...outer].reverse();
  const inn = apart(out, ringArea(hole) < 0 ? [...hole] : [...hole].reverse(), width);
  let [best, at, to] = [Infinity, 0, 0];
  out.forEach((p, i) => {
    inn.forEach((q, j) => {
      const d = distance(p, q);
      if (d < best) [best, at, to] = [d, i, j];
    });
  });
  const [p, q] = [out[at]!, inn[to]!];
  const d = best || 1;
  const n = { x: (-(q.y - p.y) / d) * (width / 2), y: ((q.x - p.x) / d) * (width / 2) };
  const beside = (v: Point, k: number): Point => ({ x: v.x + n.x * k, y: v.y + n.y * k });
  const around = [...inn.slice(to + 1), ...inn.slice(0, to)];
  return [
    ...out.slice(0, at),
    beside(p, 1),
    beside(q, 1),
    ...around,
    beside(q, -1),
    beside(p, -1),
    ...out.slice(at + 1),
  ];
}

/** A hole drawn in by a hair where it touches the outline. */
function apart(outer: Ring, hole: Ring, width: number): Point[] {
  const middle = {
    x: hole.reduce((s, p) => s + p.x, 0) / hole.length,
    y: hole.reduce((s, p) => s + p.y, 0) / hole.length,
  };
  return hole.map((p) => {
    const near = nearestOnRing(outer, p);
    const away = distance(p, middle);
    if (!near || near.distance > 2 * width || away === 0) return p;
    const k = (4 * width) / away;
    return { x: p.x + (middle.x - p.x) * k, y: p.y + (middle.y - p.y) * k };
  });
}
