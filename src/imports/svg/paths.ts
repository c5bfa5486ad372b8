import svgpath from 'svgpath';
import type { Point, Vertex } from '../../../geometry/index.ts';

/** One run of a path: closed by a Z, or open. */
export interface SubPath {
  readonly vertices: Vertex[];
  readonly closed: boolean;
}

/** Sides that stand for one Bézier curve. */
const CURVE_SIDES = 48;

/**
 * The runs of a path's data under transforms, straight sides and circle arcs kept, other curves as points.
 * Empty when the data cannot be read; what comes before a mistake in it is drawn, as the standard has it.
 * Source: SVG 1.1 (W3C, second edition) 8.3 path data, F.6 arcs, from memory.
 */
export function subPaths(data: string, transform: string): SubPath[] {
  const path = svgpath(data).transform(transform).abs().unshort();
  let oval = false;
  path.iterate((s) => {
    if (s[0] === 'A' && Math.abs(Number(s[1]) - Number(s[2])) > 1e-9 * Number(s[1])) oval = true;
  });
  const runs: Array<{ vertices: Vertex[]; closed: boolean }> = [];
  let run: { vertices: Vertex[]; closed: boolean } | null = null;
  const to = (p: Point, via: Point | null = null) => {
    if (!run) return;
    const last = run.vertices[run.vertices.length - 1]!;
    if (last.x === p.x && last.y === p.y) return;
    run.vertices[run.vertices.length - 1] = { ...last, via };
    run.vertices.push(p);
  };
  (oval ? path.unarc() : path).iterate((s, _, x, y) => {
    const at = { x, y };
    const v = s.slice(1) as number[];
    if (s[0] === 'M') {
      run = { vertices: [{ x: v[0]!, y: v[1]! }], closed: false };
      runs.push(run);
      return;
    }
    // After a Z the next run starts where the last one did.
    if (run?.closed && s[0] !== 'Z' && s[0] !== 'z') {
      run = { vertices: [at], closed: false };
      runs.push(run);
    }
    switch (s[0]) {
      case 'L':
        to({ x: v[0]!, y: v[1]! });
        return;
      case 'H':
        to({ x: v[0]!, y });
        return;
      case 'V':
        to({ x, y: v[0]! });
        return;
      case 'C':
        for (let i = 1; i <= CURVE_SIDES; i++) to(cubic(at, v, i / CURVE_SIDES));
        return;
      case 'Q':
        for (let i = 1; i <= CURVE_SIDES; i++) to(quadratic(at, v, i / CURVE_SIDES));
        return;
      case 'A':
        arcTo(at, v, to);
        return;
      default:
        if (run) run.closed = true;
    }
  });
  return runs.map(({ vertices, closed }) => {
    const [a, b] = [vertices[0]!, vertices[vertices.length - 1]!];
    const back =
      vertices.length > 2 && Math.hypot(a.x - b.x, a.y - b.y) < 1e-9 * (1 + Math.abs(a.x) + Math.abs(a.y));
    return { vertices: back ? vertices.slice(0, -1) : vertices, closed: closed || back };
  });
}

function cubic(p: Point, v: readonly number[], t: number): Point {
  const u = 1 - t;
  const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return { x: a * p.x + b * v[0]! + c * v[2]! + d * v[4]!, y: a * p.y + b * v[1]! + c * v[3]! + d * v[5]! };
}

function quadratic(p: Point, v: readonly number[], t: number): Point {
  const u = 1 - t;
  const [a, b, c] = [u * u, 2 * u * t, t * t];
  return { x: a * p.x + b * v[0]! + c * v[2]!, y: a * p.y + b * v[1]! + c * v[3]! };
}

/** A circle's arc between two points, in two halves when it is more than half the circle. */
function arcTo(from: Point, v: readonly number[], to: (p: Point, via?: Point | null) => void): void {
  const end = { x: v[5]!, y: v[6]! };
  const [dx, dy] = [end.x - from.x, end.y - from.y];
  const chord = Math.hypot(dx, dy);
  if (chord === 0) return;
  const radius = Math.max(v[0]!, chord / 2);
  const large = v[3] === 1;
  // Which way round the chord's middle the centre lies: the flags' truth table.
  const side = large === (v[4] === 1) ? -1 : 1;
  const height = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4)) * side;
  const centre = {
    x: (from.x + end.x) / 2 - (dy / chord) * height,
    y: (from.y + end.y) / 2 + (dx / chord) * height,
  };
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  let sweep = Math.atan2(end.y - centre.y, end.x - centre.x) - start;
  const clockwise = v[4] === 1;
  if (clockwise && sweep < 0) sweep += 2 * Math.PI;
  if (!clockwise && sweep > 0) sweep -= 2 * Math.PI;
  const on = (t: number) => ({
    x: centre.x + radius * Math.cos(start + sweep * t),
    y: centre.y + radius * Math.sin(start + sweep * t),
  });
  if (Math.abs(sweep) > Math.PI * 1.2) {
    to(on(0.5), on(0.25));
    to(end, on(0.75));
  } else to(end, on(0.5));
}
