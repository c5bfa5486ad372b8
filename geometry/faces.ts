import Flatbush from 'flatbush';
import type { NodedLinework } from './linework.ts';

/**
 * The faces that noded linework makes. Half-edge 2e runs along edge e from `from` to `to`, 2e + 1 back;
 * each has its face on the left. Face 0 is everything outside.
 */
export interface Faces {
  readonly count: number;
  /** Face left of each half-edge. */
  readonly faceOf: Int32Array;
  /** Next half-edge around the same face. */
  readonly next: Int32Array;
  /** Vertex each half-edge starts from. */
  readonly origin: Int32Array;
  /** For each face, how often each source winds around it; sources that do not are absent. */
  readonly winding: ReadonlyArray<ReadonlyMap<number, number>>;
}

/** The other half of the same edge. */
export const twin = (h: number): number => h ^ 1;

/** Finds faces and winding numbers. Exact: every decision is on whole cells. */
export function findFaces(work: NodedLinework): Faces {
  const { origin, next } = linkHalfEdges(work);
  const n = origin.length;
  const cycleOf = new Int32Array(n).fill(-1);
  const cycles: number[] = [];
  for (let h = 0; h < n; h++) {
    if (cycleOf[h] !== -1) continue;
    let g = h;
    do {
      cycleOf[g] = cycles.length;
      g = next[g]!;
    } while (g !== h);
    cycles.push(h);
  }
  const inner = cycles.map((h) => isInner(work, origin, next, h));
  // Inner cycles are faces of their own; the outer cycle of a component belongs to the face around it.
  const faceOfCycle = new Int32Array(cycles.length).fill(-1);
  let count = 1;
  inner.forEach((isFace, c) => {
    if (isFace) faceOfCycle[c] = count++;
  });
  placeComponents(work, origin, next, cycles, inner, cycleOf, faceOfCycle);
  const faceOf = cycleOf.map((c) => faceOfCycle[c]!);
  return { count, faceOf, next, origin, winding: windings(work, faceOf, count) };
}

/** Sorts half-edges around each vertex and links each to the next one around its left face. */
function linkHalfEdges(work: NodedLinework): { origin: Int32Array; next: Int32Array } {
  const { edges, cellX, cellY } = work;
  const n = edges.length * 2;
  const origin = new Int32Array(n);
  const around: number[][] = Array.from({ length: cellX.length }, () => []);
  edges.forEach(({ from, to }, e) => {
    origin[2 * e] = from;
    origin[2 * e + 1] = to;
    around[from]!.push(2 * e);
    around[to]!.push(2 * e + 1);
  });
  const next = new Int32Array(n);
  for (const spokes of around) {
    if (spokes.length > 1) {
      spokes.sort((g, h) => {
        const o = origin[g]!;
        const gx = cellX[origin[twin(g)]!]! - cellX[o]!;
        const gy = cellY[origin[twin(g)]!]! - cellY[o]!;
        const hx = cellX[origin[twin(h)]!]! - cellX[o]!;
        const hy = cellY[origin[twin(h)]!]! - cellY[o]!;
        const gHalf = gy < 0 || (gy === 0 && gx < 0) ? 1 : 0;
        const hHalf = hy < 0 || (hy === 0 && hx < 0) ? 1 : 0;
        return gHalf - hHalf || gy * hx - gx * hy;
      });
    }
    // Counter-clockwise order: arriving against spoke i, the left face goes on along spoke i − 1.
    spokes.forEach((spoke, i) => {
      next[twin(spoke)] = spokes[(i + spokes.length - 1) % spokes.length]!;
    });
  }
  return { origin, next };
}

/** Whether the cycle runs counter-clockwise round a face of its own: at its lowest-left corner it turns left. */
function isInner(work: NodedLinework, origin: Int32Array, next: Int32Array, start: number): boolean {
  const { cellX: x, cellY: y } = work;
  const ox = x[origin[start]!]!;
  const oy = y[origin[start]!]!;
  let twice = 0;
  let big = 0n;
  let h = start;
  do {
    const a = origin[h]!;
    const b = origin[next[h]!]!;
    twice += (x[a]! - ox) * (y[b]! - oy) - (y[a]! - oy) * (x[b]! - ox);
    if (Math.abs(twice) > 2 ** 52) {
      big += BigInt(Math.trunc(twice));
      twice = 0;
    }
    h = next[h]!;
  } while (h !== start);
  return big === 0n ? twice > 0 : big + BigInt(twice) > 0n;
}

/** Gives the outer cycle of each connected component the face that surrounds it. */
function placeComponents(
  work: NodedLinework,
  origin: Int32Array,
  next: Int32Array,
  cycles: readonly number[],
  inner: readonly boolean[],
  cycleOf: Int32Array,
  faceOfCycle: Int32Array,
): void {
  const { edges, cellX: x, cellY: y } = work;
  if (edges.length === 0) return;
  const component = components(work);
  const index = new Flatbush(edges.length);
  for (const { from, to } of edges) {
    index.add(
      Math.min(x[from]!, x[to]!),
      Math.min(y[from]!, y[to]!),
      Math.max(x[from]!, x[to]!),
      Math.max(y[from]!, y[to]!),
    );
  }
  index.finish();
  const outer: Array<{ cycle: number; leftmost: number }> = [];
  cycles.forEach((start, cycle) => {
    if (inner[cycle]) return;
    let leftmost = origin[start]!;
    let h = start;
    do {
      const v = origin[h]!;
      if (x[v]! < x[leftmost]! || (x[v] === x[leftmost] && y[v]! < y[leftmost]!)) leftmost = v;
      h = next[h]!;
    } while (h !== start);
    outer.push({ cycle, leftmost });
  });
  // From left to right: what surrounds a component begins further left, so it is placed already.
  outer.sort((a, b) => x[a.leftmost]! - x[b.leftmost]! || y[a.leftmost]! - y[b.leftmost]!);
  for (const { cycle, leftmost } of outer) {
    const vx = x[leftmost]!;
    const vy = y[leftmost]!;
    let best = -1;
    index.search(-Infinity, vy, vx, vy, (e) => {
      const { from, to } = edges[e]!;
      if (component[from] === component[leftmost]) return false;
      if (y[from]! > vy === y[to]! > vy) return false;
      if (leftOf(work, e, vx, vy) && (best === -1 || isRightOf(work, e, best, vy))) best = e;
      return false;
    });
    if (best === -1) {
      faceOfCycle[cycle] = 0;
      continue;
    }
    // The side that faces right is the left of the half-edge that runs down.
    const { from, to } = edges[best]!;
    const down = y[from]! > y[to]! ? 2 * best : 2 * best + 1;
    faceOfCycle[cycle] = faceOfCycle[cycleOf[down]!]!;
  }
}

/** Edge e crosses the row at or left of vx. */
function leftOf(work: NodedLinework, e: number, vx: number, vy: number): boolean {
  const { lowX, lowY, dx, dy } = upward(work, e);
  return (vx - lowX) * dy - (vy - lowY) * dx >= 0;
}

/** On the row just above vy, edge e lies right of edge f. Exact fractions, for rows crossed almost together. */
function isRightOf(work: NodedLinework, e: number, f: number, vy: number): boolean {
  const p = upward(work, e);
  const q = upward(work, f);
  const px = p.lowX + ((vy - p.lowY) * p.dx) / p.dy;
  const qx = q.lowX + ((vy - q.lowY) * q.dx) / q.dy;
  if (Math.abs(px - qx) > 1e-3) return px > qx;
  const [pdx, pdy, qdx, qdy] = [BigInt(p.dx), BigInt(p.dy), BigInt(q.dx), BigInt(q.dy)];
  const pn = BigInt(p.lowX) * pdy + BigInt(vy - p.lowY) * pdx;
  const qn = BigInt(q.lowX) * qdy + BigInt(vy - q.lowY) * qdx;
  const gap = pn * qdy - qn * pdy;
  return gap !== 0n ? gap > 0n : pdx * qdy > qdx * pdy;
}

function upward(work: NodedLinework, e: number) {
  const { cellX: x, cellY: y } = work;
  const { from, to } = work.edges[e]!;
  const [low, high] = y[from]! < y[to]! ? [from, to] : [to, from];
  return { lowX: x[low]!, lowY: y[low]!, dx: x[high]! - x[low]!, dy: y[high]! - y[low]! };
}

function components(work: NodedLinework): Int32Array {
  const parent = Int32Array.from({ length: work.cellX.length }, (_, v) => v);
  const find = (v: number): number => {
    let r = v;
    while (parent[r] !== r) {
      parent[r] = parent[parent[r]!]!;
      r = parent[r]!;
    }
    return r;
  };
  for (const { from, to } of work.edges) parent[find(from)] = find(to);
  return parent.map((_, v) => find(v));
}

/** Winding numbers spread from the outside, where all are zero, across the edges. */
function windings(
  work: NodedLinework,
  faceOf: Int32Array,
  count: number,
): ReadonlyArray<ReadonlyMap<number, number>> {
  const borders: number[][] = Array.from({ length: count }, () => []);
  for (let h = 0; h < faceOf.length; h++) borders[faceOf[h]!]!.push(h);
  const none: ReadonlyMap<number, number> = new Map();
  const winding: Array<ReadonlyMap<number, number> | undefined> = new Array(count);
  winding[0] = none;
  const queue = [0];
  for (const face of queue) {
    for (const h of borders[face]!) {
      const other = faceOf[twin(h)]!;
      if (winding[other]) continue;
      const across = new Map(winding[face]!);
      for (const { source, direction } of work.edges[h >> 1]!.uses) {
        if (work.sources[source]!.kind === 'cut') continue;
        // The left of a source's direction of travel is wound once more than the right; we go from left of h to its right.
        const travels = (h & 1) === 0 ? direction : -direction;
        const w = (across.get(source) ?? 0) - travels;
        if (w === 0) across.delete(source);
        else across.set(source, w);
      }
      winding[other] = across.size === 0 ? none : across;
      queue.push(other);
    }
  }
  return winding.map((w) => w ?? none);
}
