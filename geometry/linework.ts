import { type Arc, fractionOnArc } from './arc.ts';

import { cellX, cellY, FINEST_CELL, type Grid, gridFor } from './grid.ts';
import { type CellSegment, type Noded, nodeSegments } from './noding.ts';
import type { Point } from './point.ts';
import { flattenSide, type Ring, type Side, sidesOf } from './ring.ts';

/** What a piece of linework belongs to. */
export type Source =
  | { readonly kind: 'slab'; readonly index: number }
  | { readonly kind: 'cut'; readonly index: number }
  | { readonly kind: 'void'; readonly index: number };

/** One straight piece of one side of one source: a chord where the side is an arc. */
interface Piece extends CellSegment {
  readonly source: number;
  readonly side: number;
  readonly a: Point;
  readonly b: Point;
  readonly arc: Arc | null;
}

/** A stretch of an edge's lines: which source and side, in which direction, on which circle. */
export interface Use {
  readonly source: number;
  readonly side: number;
  /** +1 when the source travels the edge from `from` to `to`. */
  readonly direction: 1 | -1;
  readonly arc: Arc | null;
}

/** A noded edge from the lower-numbered vertex to the higher, with everything that runs along it. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly uses: Use[];
}

/** Linework that meets only at shared vertices, each vertex at its true position. */
export interface NodedLinework {
  readonly grid: Grid;
  readonly sources: readonly Source[];
  /** Whole cells about the grid's origin: what the topology was decided on. */
  readonly cellX: readonly number[];
  readonly cellY: readonly number[];
  /** True positions about the grid's origin: what lengths and areas are taken from. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly edges: readonly Edge[];
  /** Every piece of every source, in order, with the vertices it now runs through. */
  readonly paths: ReadonlyArray<{ readonly source: number; readonly vertices: readonly number[] }>;
}

/** How far, in cells, a crossing may be lifted from where its chords cross to where its arcs do. */
const LIFT_REACH_CELLS = 64;

/** Chord height below which an arc is flattened for topology; areas and lengths do not depend on it. */
const SAGITTA = 2 ** -11;

/** Gathers the sides of rings and open paths and nodes them together. */
export function nodeLinework(
  slabs: readonly Ring[],
  cuts: ReadonlyArray<readonly Point[]>,
  voids: readonly Ring[],
): NodedLinework {
  const sources: Source[] = [];
  const sides: Array<{ source: number; side: number; line: Side }> = [];
  const add = (source: Source, lines: readonly Side[]) => {
    const s = sources.push(source) - 1;
    lines.forEach((line, side) => {
      sides.push({ source: s, side, line });
    });
  };
  slabs.forEach((ring, index) => {
    add({ kind: 'slab', index }, sidesOf(ring));
  });
  cuts.forEach((path, index) => {
    const lines = path.slice(1).map((b, i) => ({ a: path[i]!, b, arc: null }));
    add({ kind: 'cut', index }, lines);
  });
  voids.forEach((ring, index) => {
    add({ kind: 'void', index }, sidesOf(ring));
  });

  const flat: Array<{ source: number; side: number; a: Point; b: Point; arc: Arc | null }> = [];
  const ends = sides.flatMap(({ line }) => [line.a, line.b]);
  for (const { source, side, line } of sides) {
    let a = line.a;
    for (const b of flattenSide(line, SAGITTA, meetings(line, ends))) {
      flat.push({ source, side, a, b, arc: line.arc });
      a = b;
    }
  }
  const grid = gridFor(flat.map((p) => p.a).concat(flat.map((p) => p.b)));
  const pieces: Piece[] = flat.map((p) => ({
    ...p,
    a: { x: p.a.x - grid.originX, y: p.a.y - grid.originY },
    b: { x: p.b.x - grid.originX, y: p.b.y - grid.originY },
    arc: p.arc && {
      ...p.arc,
      centre: { x: p.arc.centre.x - grid.originX, y: p.arc.centre.y - grid.originY },
    },
    ax: cellX(grid, p.a.x),
    ay: cellY(grid, p.a.y),
    bx: cellX(grid, p.b.x),
    by: cellY(grid, p.b.y),
  }));
  const noded = nodeSegments(pieces);
  return {
    grid,
    sources,
    cellX: noded.x,
    cellY: noded.y,
    ...lift(grid, noded, pieces),
    edges: collectEdges(noded, pieces),
    paths: noded.chains.map((vertices, p) => ({ source: pieces[p]!.source, vertices })),
  };
}

/** Points this near a circle lie on it, as a cut that ends on an arc does. */
const ON_ARC = FINEST_CELL / 4;

/** Fractions along an arc at which other lines end on it: its chords must meet there too. */
function meetings(line: Side, ends: readonly Point[]): number[] {
  const { arc } = line;
  if (!arc) return [];
  const fractions = new Set<number>();
  for (const p of ends) {
    if (Math.abs(Math.hypot(p.x - arc.centre.x, p.y - arc.centre.y) - arc.radius) > ON_ARC) continue;
    const t = fractionOnArc(arc, p);
    const margin = ON_ARC / (Math.abs(arc.sweep) * arc.radius);
    if (t > margin && t < 1 - margin) fractions.add(t);
  }
  return [...fractions];
}

function collectEdges(noded: Noded, pieces: readonly Piece[]): Edge[] {
  const byKey = new Map<number, Edge>();
  noded.chains.forEach((chain, p) => {
    const { source, side, arc } = pieces[p]!;
    for (let i = 1; i < chain.length; i++) {
      const u = chain[i - 1]!;
      const v = chain[i]!;
      const from = Math.min(u, v);
      const to = Math.max(u, v);
      const key = from * 2 ** 26 + to;
      let edge = byKey.get(key);
      if (!edge) {
        edge = { from, to, uses: [] };
        byKey.set(key, edge);
      }
      edge.uses.push({ source, side, direction: u < v ? 1 : -1, arc });
    }
  });
  return [...byKey.values()];
}

/**
 * Takes each vertex from its cell back to where it truly is: an end to its own coordinates, a crossing to
 * where its two true lines meet. Topology stays that of the grid, so sums over both sides of an edge stay
 * exact, while areas lose the rounding of the grid wherever no line had to be bent.
 */
function lift(grid: Grid, noded: Noded, pieces: readonly Piece[]): { x: number[]; y: number[] } {
  const n = noded.x.length;
  const x: number[] = new Array(n);
  const y: number[] = new Array(n);
  const known = new Uint8Array(n);
  const through: Array<Piece[] | undefined> = new Array(n);
  noded.chains.forEach((chain, p) => {
    const piece = pieces[p]!;
    const ends = [
      [chain[0]!, piece.a],
      [chain[chain.length - 1]!, piece.b],
    ] as const;
    for (const [v, point] of ends) {
      if (known[v]) continue;
      known[v] = 1;
      x[v] = point.x;
      y[v] = point.y;
    }
    for (let i = 1; i + 1 < chain.length; i++) {
      const v = chain[i]!;
      if (through[v]) through[v]!.push(piece);
      else through[v] = [piece];
    }
  });
  for (let v = 0; v < n; v++) {
    if (known[v]) continue;
    const at = { x: noded.x[v]! * grid.cell, y: noded.y[v]! * grid.cell };
    const met = trueCrossing(through[v] ?? [], at, LIFT_REACH_CELLS * grid.cell);
    x[v] = met.x;
    y[v] = met.y;
  }
  return { x, y };
}

/** Where the first two different true lines through a cell meet, or the cell itself when none is near. */
function trueCrossing(through: readonly Piece[], at: Point, reach: number): Point {
  for (let i = 0; i < through.length; i++) {
    for (let j = i + 1; j < through.length; j++) {
      const p = meet(through[i]!, through[j]!, at);
      if (p && Math.abs(p.x - at.x) <= reach && Math.abs(p.y - at.y) <= reach) return p;
    }
  }
  return at;
}

function meet(p: Piece, q: Piece, near: Point): Point | null {
  if (!p.arc && !q.arc) return meetLines(p, q);
  if (p.arc && q.arc) return meetCircles(p.arc, q.arc, near);
  return p.arc ? meetLineCircle(q, p.arc, near) : meetLineCircle(p, q.arc!, near);
}

function meetLines(p: Piece, q: Piece): Point | null {
  const dx = p.b.x - p.a.x;
  const dy = p.b.y - p.a.y;
  const ex = q.b.x - q.a.x;
  const ey = q.b.y - q.a.y;
  const turn = dx * ey - dy * ex;
  if (Math.abs(turn) <= 1e-9 * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return null;
  const t = ((q.a.x - p.a.x) * ey - (q.a.y - p.a.y) * ex) / turn;
  return { x: p.a.x + dx * t, y: p.a.y + dy * t };
}

function meetLineCircle(line: Piece, arc: Arc, near: Point): Point | null {
  const dx = line.b.x - line.a.x;
  const dy = line.b.y - line.a.y;
  const d2 = dx * dx + dy * dy;
  if (d2 === 0) return null;
  const fx = arc.centre.x - line.a.x;
  const fy = arc.centre.y - line.a.y;
  const foot = (fx * dx + fy * dy) / d2;
  const off = (fx * dy - fy * dx) / Math.sqrt(d2);
  const half2 = arc.radius * arc.radius - off * off;
  if (half2 < 0) return null;
  const half = Math.sqrt(half2 / d2);
  return nearest(
    near,
    { x: line.a.x + dx * (foot - half), y: line.a.y + dy * (foot - half) },
    { x: line.a.x + dx * (foot + half), y: line.a.y + dy * (foot + half) },
  );
}

function meetCircles(p: Arc, q: Arc, near: Point): Point | null {
  const dx = q.centre.x - p.centre.x;
  const dy = q.centre.y - p.centre.y;
  const d2 = dx * dx + dy * dy;
  if (d2 <= 1e-18 * p.radius * p.radius) return null;
  const along = (p.radius * p.radius - q.radius * q.radius + d2) / (2 * d2);
  const half2 = (p.radius * p.radius) / d2 - along * along;
  if (half2 < 0) return null;
  const half = Math.sqrt(half2);
  const mx = p.centre.x + dx * along;
  const my = p.centre.y + dy * along;
  return nearest(near, { x: mx - dy * half, y: my + dx * half }, { x: mx + dy * half, y: my - dx * half });
}

const nearest = (p: Point, a: Point, b: Point): Point =>
  (a.x - p.x) ** 2 + (a.y - p.y) ** 2 <= (b.x - p.x) ** 2 + (b.y - p.y) ** 2 ? a : b;

/**
 * Turn about the circle's centre from one vertex to the other, signed, the shorter way round. Summed along
 * a side it gives the side's whole sweep, whatever it was split at.
 */
export function turnOnArc(arc: Arc, ax: number, ay: number, bx: number, by: number): number {
  const ux = ax - arc.centre.x;
  const uy = ay - arc.centre.y;
  const vx = bx - arc.centre.x;
  const vy = by - arc.centre.y;
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}
