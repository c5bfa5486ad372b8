import Flatbush from 'flatbush';
import { scratch } from './columns.ts';
import { type HalfEdges, twin } from './half-edges.ts';
import { firstSlot, type NodedLinework } from './linework.ts';
import { sortShort } from './sort-short.ts';
import { type Windings, windings } from './winding.ts';

/** The faces that noded linework makes. */
export interface Faces {
  readonly halfEdges: HalfEdges;
  readonly winding: Windings;
}

/** Finds faces and winding numbers. Exact: every decision is on whole cells. */
export function findFaces(work: NodedLinework): Faces {
  const mark = scratch.mark();
  const faces = new FaceFinder(work).run();
  scratch.release(mark);
  return faces;
}

/** Above this many looks from components at edges an index pays for itself. */
const MANY_LOOKS = 20_000;

class FaceFinder {
  /** Half-edges. */
  private readonly n: number;
  private readonly next: Int32Array;
  private readonly faceOf: Int32Array;
  /** For each edge: where it begins from the left, its rows, and the row of a leftmost point. */
  private readonly minX: Int32Array;
  private readonly minY: Int32Array;
  private readonly maxY: Int32Array;
  private readonly leftY: Int32Array;
  /** Twice the area each edge sweeps about the grid's origin, and the sum of its terms' sizes: the first is exact while the second is below 2^53. */
  private readonly swept: Float64Array;
  private readonly terms: Float64Array;
  /** For each cycle of half-edges: one of them, and its face. */
  private readonly starts: Int32Array;
  private readonly faceOfCycle: Int32Array;
  private readonly cycleOf: Int32Array;

  constructor(private readonly work: NodedLinework) {
    const edges = work.edgeCount;
    this.n = 2 * edges;
    this.next = work.lines.columns.int32(this.n);
    this.faceOf = work.lines.columns.int32(this.n);
    this.minX = scratch.int32(edges);
    this.minY = scratch.int32(edges);
    this.maxY = scratch.int32(edges);
    this.leftY = scratch.int32(edges);
    this.swept = scratch.float64(edges);
    this.terms = scratch.float64(edges);
    this.starts = scratch.int32(this.n);
    this.faceOfCycle = scratch.int32(this.n);
    this.cycleOf = scratch.int32(this.n).fill(-1);
  }

  run(): Faces {
    const { n, work, next, faceOf, starts, faceOfCycle, cycleOf } = this;
    const { columns } = work.lines;
    for (let e = 0; e < work.edgeCount; e++) this.track(e);
    this.linkHalfEdges();
    let cycles = 0;
    for (let h = 0; h < n; h++) {
      if (cycleOf[h] !== -1) continue;
      let g = h;
      do {
        cycleOf[g] = cycles;
        g = next[g]!;
      } while (g !== h);
      starts[cycles++] = h;
    }
    // Inner cycles are faces of their own; the outer cycle of a component belongs to the face around it.
    let count = 1;
    const outer: number[] = [];
    for (let c = 0; c < cycles; c++) {
      if (this.isInner(starts[c]!)) faceOfCycle[c] = count++;
      else outer.push(c);
    }
    this.placeComponents(outer);
    const firstBorder = columns.int32(count + 1);
    const borders = columns.int32(n);
    for (let h = 0; h < n; h++) {
      faceOf[h] = faceOfCycle[cycleOf[h]!]!;
      firstBorder[faceOf[h]! + 1]!++;
    }
    for (let f = 0; f < count; f++) firstBorder[f + 1]! += firstBorder[f]!;
    const filled = scratch.int32(count);
    for (let f = 0; f < count; f++) filled[f] = firstBorder[f]!;
    for (let h = 0; h < n; h++) borders[filled[faceOf[h]!]!++] = h;
    const halfEdges = { count, faceOf, next, borders, firstBorder };
    return { halfEdges, winding: windings(work, halfEdges) };
  }

  /** Walks an edge for how far it reaches and its swept area. */
  private track(e: number): void {
    const { cellX, cellY, lines, from, to, lastSlot } = this.work;
    const endX = cellX[to[e]!]!;
    const endY = cellY[to[e]!]!;
    let ax = cellX[from[e]!]!;
    let ay = cellY[from[e]!]!;
    let minX = ax;
    let minY = ay;
    let maxY = ay;
    let leftY = ay;
    let swept = 0;
    let terms = 0;
    const last = lastSlot[e]!;
    let slot = last < 0 ? -1 : firstSlot(this.work, e);
    for (;;) {
      const end = slot < 0 ? -1 : lines.to[slot]!;
      const bx = end < 0 ? endX : lines.cx[end]!;
      const by = end < 0 ? endY : lines.cy[end]!;
      const p = ax * by;
      const q = ay * bx;
      swept += p - q;
      terms += Math.abs(p) + Math.abs(q);
      if (bx < minX) {
        minX = bx;
        leftY = by;
      }
      if (by < minY) minY = by;
      if (by > maxY) maxY = by;
      if (slot === last) break;
      ax = bx;
      ay = by;
      slot = end;
    }
    this.minX[e] = minX;
    this.minY[e] = minY;
    this.maxY[e] = maxY;
    this.leftY[e] = leftY;
    this.swept[e] = swept;
    this.terms[e] = terms;
  }

  /** Sorts half-edges around each vertex and links each to the next one around its left face. */
  private linkHalfEdges(): void {
    const { n, next } = this;
    const { from, to, vertexCount, edgeCount } = this.work;
    // Half-edges by the vertex they start from: those of vertex v stand from `first[v]` up to `first[v + 1]`.
    const first = scratch.int32(vertexCount + 1).fill(0);
    for (let e = 0; e < edgeCount; e++) {
      first[from[e]! + 1]!++;
      first[to[e]! + 1]!++;
    }
    for (let v = 0; v < vertexCount; v++) first[v + 1]! += first[v]!;
    const spokes = scratch.int32(n);
    const filled = scratch.int32(vertexCount + 1);
    filled.set(first);
    for (let e = 0; e < edgeCount; e++) {
      spokes[filled[from[e]!]!++] = 2 * e;
      spokes[filled[to[e]!]!++] = 2 * e + 1;
    }
    const aheadX = scratch.int32(n);
    const aheadY = scratch.int32(n);
    for (let v = 0; v < vertexCount; v++) {
      const start = first[v]!;
      const end = first[v + 1]!;
      // Of two it does not matter which comes first.
      if (end - start > 2) this.sortAround(spokes, start, end, aheadX, aheadY);
      // Counter-clockwise order: arriving against a spoke, the left face goes on along the one before.
      for (let i = start; i < end; i++) next[twin(spokes[i]!)] = spokes[i > start ? i - 1 : end - 1]!;
    }
  }

  /**
   * Sorts the half-edges from `start` up to `end`, which start at one vertex, counter-clockwise by where they head for;
   * exact. How far that is away goes into the columns. They are straight pieces, as no run ends where others meet.
   */
  private sortAround(
    spokes: Int32Array,
    start: number,
    end: number,
    aheadX: Int32Array,
    aheadY: Int32Array,
  ): void {
    const { cellX, cellY, from, to } = this.work;
    // By insertion: there are three or four as a rule.
    for (let i = start; i < end; i++) {
      const h = spokes[i]!;
      const e = h >> 1;
      const onward = (h & 1) === 0;
      const here = onward ? from[e]! : to[e]!;
      const there = onward ? to[e]! : from[e]!;
      const x = cellX[there]! - cellX[here]!;
      const y = cellY[there]! - cellY[here]!;
      let k = i;
      for (; k > start && isBefore(x, y, aheadX[k - 1]!, aheadY[k - 1]!); k--) {
        spokes[k] = spokes[k - 1]!;
        aheadX[k] = aheadX[k - 1]!;
        aheadY[k] = aheadY[k - 1]!;
      }
      spokes[k] = h;
      aheadX[k] = x;
      aheadY[k] = y;
    }
  }

  /** Whether the cycle runs counter-clockwise round a face of its own: its swept area is positive. */
  private isInner(start: number): boolean {
    const { next, swept, terms } = this;
    let twice = 0;
    let sizes = 0;
    let h = start;
    do {
      const e = h >> 1;
      twice += (h & 1) === 0 ? swept[e]! : -swept[e]!;
      sizes += terms[e]!;
      h = next[h]!;
    } while (h !== start);
    return sizes < 2 ** 53 ? twice > 0 : this.sweptExactly(start) > 0n;
  }

  private sweptExactly(start: number): bigint {
    let twice = 0n;
    let h = start;
    do {
      let along = 0n;
      // A difference of two products below 2^47 is exact.
      eachPiece(this.work, h >> 1, (ax, ay, bx, by) => {
        along += BigInt(ax * by - ay * bx);
      });
      twice += (h & 1) === 0 ? along : -along;
      h = this.next[h]!;
    } while (h !== start);
    return twice;
  }

  /** Gives the outer cycle of each connected component the face that surrounds it. */
  private placeComponents(outer: number[]): void {
    const { work, starts, cycleOf, faceOfCycle } = this;
    if (outer.length === 1) {
      faceOfCycle[outer[0]!] = 0;
      return;
    }
    const component = components(work);
    const edgesNear = this.rowSearch(outer.length);
    // From left to right: what surrounds a component begins further left, so it is placed already.
    const x = scratch.int32(starts.length);
    const y = scratch.int32(starts.length);
    for (const cycle of outer) this.findLeftmost(cycle, x, y);
    sortShort(outer, (a, b) => x[a]! - x[b]!);
    for (const cycle of outer) {
      const own = component[work.from[starts[cycle]! >> 1]!]!;
      let best: Crossing | null = null;
      for (const e of edgesNear(x[cycle]!, y[cycle]!)) {
        if (component[work.from[e]!] !== own) best = nearestLeft(work, e, x[cycle]!, y[cycle]!, best);
      }
      // The side that faces right is the left of the half-edge that runs down.
      faceOfCycle[cycle] =
        best === null ? 0 : faceOfCycle[cycleOf[best.down ? 2 * best.e : 2 * best.e + 1]!]!;
    }
  }

  /** Puts a leftmost point of a cycle into columns by cycle. */
  private findLeftmost(cycle: number, x: Int32Array, y: Int32Array): void {
    const { next, minX, leftY, starts } = this;
    const start = starts[cycle]!;
    x[cycle] = minX[start >> 1]!;
    y[cycle] = leftY[start >> 1]!;
    for (let h = next[start]!; h !== start; h = next[h]!) {
      const e = h >> 1;
      if (minX[e]! < x[cycle]!) {
        x[cycle] = minX[e]!;
        y[cycle] = leftY[e]!;
      }
    }
  }

  /** A search for the edges that reach the row of a point and begin no further right. */
  private rowSearch(times: number): (x: number, y: number) => readonly number[] {
    const { minX, minY, maxY } = this;
    const edges = this.work.edgeCount;
    if (edges * times > MANY_LOOKS) {
      const index = new Flatbush(edges);
      for (let e = 0; e < edges; e++) index.add(minX[e]!, minY[e]!, minX[e]!, maxY[e]!);
      index.finish();
      return (x, y) => index.search(-Infinity, y, x, y);
    }
    return (x, y) => {
      const found: number[] = [];
      for (let e = 0; e < edges; e++) if (minY[e]! <= y && maxY[e]! >= y && minX[e]! <= x) found.push(e);
      return found;
    };
  }
}

/** Calls with each straight piece of the edge, in its own direction. */
function eachPiece(
  work: NodedLinework,
  e: number,
  visit: (ax: number, ay: number, bx: number, by: number) => void,
): void {
  const { cellX, cellY, lines, from, to, lastSlot } = work;
  const last = lastSlot[e]!;
  if (last < 0) {
    visit(cellX[from[e]!]!, cellY[from[e]!]!, cellX[to[e]!]!, cellY[to[e]!]!);
    return;
  }
  const { cx, cy } = lines;
  for (let slot = firstSlot(work, e); ; slot = lines.to[slot]!) {
    const end = lines.to[slot]!;
    visit(cx[slot]!, cy[slot]!, cx[end]!, cy[end]!);
    if (slot === last) return;
  }
}

/** Whether direction p comes before q, counter-clockwise from due east. */
function isBefore(px: number, py: number, qx: number, qy: number): boolean {
  const pBack = py < 0 || (py === 0 && px < 0);
  const qBack = qy < 0 || (qy === 0 && qx < 0);
  return pBack === qBack ? px * qy > py * qx : qBack;
}

/** A straight piece of an edge that crosses a row, and whether the edge runs down there. */
interface Crossing {
  readonly e: number;
  readonly down: boolean;
  readonly lowX: number;
  readonly lowY: number;
  readonly dx: number;
  readonly dy: number;
}

/** The crossing of the row that is nearest to the left of x: the best so far, or one of a piece of this edge. */
function nearestLeft(
  work: NodedLinework,
  e: number,
  x: number,
  y: number,
  best: Crossing | null,
): Crossing | null {
  const { cellX, cellY, lines, from, to, lastSlot } = work;
  let nearest = best;
  const last = lastSlot[e]!;
  let ax = cellX[from[e]!]!;
  let ay = cellY[from[e]!]!;
  for (let slot = last < 0 ? -1 : firstSlot(work, e); ; ) {
    const end = slot < 0 ? -1 : lines.to[slot]!;
    const bx = end < 0 ? cellX[to[e]!]! : lines.cx[end]!;
    const by = end < 0 ? cellY[to[e]!]! : lines.cy[end]!;
    const down = ay > y;
    if (down !== by > y) {
      const lowX = down ? bx : ax;
      const lowY = down ? by : ay;
      const dx = down ? ax - bx : bx - ax;
      const dy = down ? ay - by : by - ay;
      if ((x - lowX) * dy - (y - lowY) * dx >= 0) {
        const c: Crossing = { e, down, lowX, lowY, dx, dy };
        if (nearest === null || isRightOf(c, nearest, y)) nearest = c;
      }
    }
    if (slot === last) return nearest;
    ax = bx;
    ay = by;
    slot = end;
  }
}

/** On the row just above y, p lies right of q. Exact fractions, for rows crossed almost together. */
function isRightOf(p: Crossing, q: Crossing, y: number): boolean {
  const px = p.lowX + ((y - p.lowY) * p.dx) / p.dy;
  const qx = q.lowX + ((y - q.lowY) * q.dx) / q.dy;
  if (Math.abs(px - qx) > 1e-3) return px > qx;
  const [pdx, pdy, qdx, qdy] = [BigInt(p.dx), BigInt(p.dy), BigInt(q.dx), BigInt(q.dy)];
  const pn = BigInt(p.lowX) * pdy + BigInt(y - p.lowY) * pdx;
  const qn = BigInt(q.lowX) * qdy + BigInt(y - q.lowY) * qdx;
  const gap = pn * qdy - qn * pdy;
  return gap !== 0n ? gap > 0n : pdx * qdy > qdx * pdy;
}

function components({ vertexCount, edgeCount, from, to }: NodedLinework): Int32Array {
  const parent = scratch.int32(vertexCount);
  for (let v = 0; v < vertexCount; v++) parent[v] = v;
  const find = (v: number): number => {
    let r = v;
    while (parent[r] !== r) {
      parent[r] = parent[parent[r]!]!;
      r = parent[r]!;
    }
    return r;
  };
  for (let e = 0; e < edgeCount; e++) parent[find(from[e]!)] = find(to[e]!);
  for (let v = 0; v < vertexCount; v++) parent[v] = find(v);
  return parent;
}
