import { coveredArea } from './area-where.ts';
import { cross, distance, type Point } from './point.ts';
import type { Ring, Vertex } from './ring.ts';

/**
 * Area of a region within `width` of the given runs along its boundary, ground near two of them counted once: what a
 * brush covers before the roller comes. True offset: rounded about corners that point inwards, cut square where a run ends.
 * @param rings outlines of the region, outer ones counter-clockwise, holes clockwise
 * @param runs points in order with the region on the left
 * @param width unit of the coordinates; 0 gives 0
 */
export function bandArea(rings: readonly Ring[], runs: readonly (readonly Point[])[], width: number): number {
  if (!(width > 0)) return 0;
  return coveredArea(
    rings,
    runs.flatMap((run) => stripsAlong(run, width)),
  );
}

/** A rectangle left of each piece of the run, and a sector wherever two of them leave a gap. */
function stripsAlong(run: readonly Point[], width: number): Ring[] {
  const points = run.filter((p, i) => i === 0 || distance(p, run[i - 1]!) > 1e-9);
  const strips: Ring[] = [];
  const closed = points.length > 2 && distance(points[0]!, points[points.length - 1]!) < 1e-9;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    strips.push([a, b, offset(b, a, b, width), offset(a, a, b, width)]);
    const c = points[i + 1] ?? (closed ? points[1] : undefined);
    // Turning right or back, the rectangles on the left part.
    if (c && turnsAway(a, b, c)) strips.push(sector(a, b, c, width));
  }
  return strips;
}

function turnsAway(a: Point, b: Point, c: Point): boolean {
  const turn = cross(a, b, c);
  return turn < 0 || (turn === 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0);
}

/** The point `width` to the left of p, seen along a→b. */
function offset(p: Point, a: Point, b: Point, width: number): Point {
  const k = width / distance(a, b);
  return { x: p.x - (b.y - a.y) * k, y: p.y + (b.x - a.x) * k };
}

function sector(a: Point, b: Point, c: Point, width: number): Ring {
  const from = offset(b, a, b, width);
  const to = offset(b, b, c, width);
  const mx = from.x + to.x - 2 * b.x;
  const my = from.y + to.y - 2 * b.y;
  const m = Math.hypot(mx, my);
  // Doubling back: the middle of the turn lies straight ahead.
  const via =
    m > 1e-9 * width
      ? { x: b.x + (mx / m) * width, y: b.y + (my / m) * width }
      : { x: b.x + from.y - b.y, y: b.y - (from.x - b.x) };
  const start: Vertex = { ...from, via };
  return [b, start, to];
}
