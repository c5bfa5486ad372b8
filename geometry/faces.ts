import Flatbush from 'flatbush';
import type { Lines } from './lines.ts';
import type { Edge, NodedLinework } from './linework.ts';

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
  /** For each face, the half-edges that have it on their left. */
  readonly borders: ReadonlyArray<readonly number[]>;
  /** For each face, how often each source winds around it; sources that do not are absent. */
  readonly winding: ReadonlyArray<ReadonlyMap<number, number>>;
}

/** The other half of the same edge. */
export const twin = (h: number): number => h ^ 1;

/** Finds faces and winding numbers. Exact: every decision is on whole cells. */
export function findFaces(work: NodedLinework): Faces {
  const tracks = work.edges.map((edge) => track(work, edge));
  const next = linkHalfEdges(work, tracks);
  const n = next.length;
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
  const inner = cycles.map((h) => isInner(work, tracks, next, h));
  // Inner cycles are faces of their own; the outer cycle of a component belongs to the face around it.
  const faceOfCycle = new Int32Array(cycles.length).fill(-1);
  let count = 1;
  inner.forEach((isFace, c) => {
    if (isFace) faceOfCycle[c] = count++;
  });
  placeComponents(work, tracks, { next, cycles, inner, cycleOf, faceOfCycle });
  const faceOf = cycleOf.map((c) => faceOfCycle[c]!);
  const borders: number[][] = Array.from({ length: count }, () => []);
  for (let h = 0; h < n; h++) borders[faceOf[h]!]!.push(h);
  return { count, faceOf, next, borders, winding: windings(work, faceOf, borders) };
}

/** An edge's points in whole cells, and what is asked of them again and again. */
interface Track {
  /** Slots of a run, whose points are those of the edge; null for a straight piece. */
  readonly slots: readonly number[] | null;
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** The leftmost point, the lowest of several. */
  readonly leftX: number;
  readonly leftY: number;
  /** Twice the area swept about the grid's origin, and the sum of its terms' sizes: the first is exact while the second is below 2^53. */
  readonly swept: number;
  readonly terms: number;
}

function track({ cellX, cellY, lines }: NodedLinework, edge: Edge): Track {
  const { slots } = edge;
  const fromX = cellX[edge.from]!;
  const fromY = cellY[edge.from]!;
  const toX = cellX[edge.to]!;
  const toY = cellY[edge.to]!;
  let [minX, maxX, minY, maxY] = [fromX, fromX, fromY, fromY];
  let [leftX, leftY, swept, terms] = [fromX, fromY, 0, 0];
  let ax = fromX;
  let ay = fromY;
  const n = slots ? slots.length : 1;
  for (let i = 0; i < n; i++) {
    const slot = slots ? lines.to[slots[i]!]! : -1;
    const bx = slots ? lines.cx[slot]! : toX;
    const by = slots ? lines.cy[slot]! : toY;
    const p = ax * by;
    const q = ay * bx;
    swept += p - q;
    terms += Math.abs(p) + Math.abs(q);
    if (bx < leftX || (bx === leftX && by < leftY)) {
      leftX = bx;
      leftY = by;
    }
    if (bx < minX) minX = bx;
    if (bx > maxX) maxX = bx;
    if (by < minY) minY = by;
    if (by > maxY) maxY = by;
    ax = bx;
    ay = by;
  }
  return { slots, fromX, fromY, toX, toY, minX, minY, maxX, maxY, leftX, leftY, swept, terms };
}

/** Calls with each straight piece of the edge, in its own direction. */
function eachPiece(
  { lines }: NodedLinework,
  t: Track,
  visit: (ax: number, ay: number, bx: number, by: number) => void,
): void {
  if (!t.slots) {
    visit(t.fromX, t.fromY, t.toX, t.toY);
    return;
  }
  const { cx, cy, to } = lines;
  for (const slot of t.slots) visit(cx[slot]!, cy[slot]!, cx[to[slot]!]!, cy[to[slot]!]!);
}

/** Sorts half-edges around each vertex and links each to the next one around its left face. */
function linkHalfEdges({ edges, cellX, lines }: NodedLinework, tracks: readonly Track[]): Int32Array {
  const n = edges.length * 2;
  // Half-edges by the vertex they start from: those of vertex v stand from `first[v]` up to `first[v + 1]`.
  const first = new Int32Array(cellX.length + 1);
  for (const { from, to } of edges) {
    first[from + 1]!++;
    first[to + 1]!++;
  }
  for (let v = 0; v < cellX.length; v++) first[v + 1]! += first[v]!;
  const spokes = new Int32Array(n);
  const filled = first.slice();
  edges.forEach(({ from, to }, e) => {
    spokes[filled[from]!++] = 2 * e;
    spokes[filled[to]!++] = 2 * e + 1;
  });
  const next = new Int32Array(n);
  for (let v = 0; v < cellX.length; v++) {
    const start = first[v]!;
    const end = first[v + 1]!;
    // Of two it does not matter which comes first.
    if (end - start > 2) sortAround(spokes.subarray(start, end), lines, tracks);
    // Counter-clockwise order: arriving against a spoke, the left face goes on along the one before.
    for (let i = start; i < end; i++) next[twin(spokes[i]!)] = spokes[i > start ? i - 1 : end - 1]!;
  }
  return next;
}

/** Sorts the half-edges that start at one vertex counter-clockwise by where they head for; exact. */
function sortAround(spokes: Int32Array, { cx, cy, to }: Lines, tracks: readonly Track[]): void {
  const aheadX: number[] = [];
  const aheadY: number[] = [];
  for (const h of spokes) {
    const { slots, fromX, fromY, toX, toY } = tracks[h >> 1]!;
    const onward = (h & 1) === 0;
    const near = slots ? (onward ? to[slots[0]!]! : slots[slots.length - 1]!) : -1;
    const x = slots ? cx[near]! : onward ? toX : fromX;
    const y = slots ? cy[near]! : onward ? toY : fromY;
    aheadX.push(x - (onward ? fromX : toX));
    aheadY.push(y - (onward ? fromY : toY));
  }
  // By insertion: there are three or four as a rule.
  for (let i = 1; i < spokes.length; i++) {
    const [h, x, y] = [spokes[i]!, aheadX[i]!, aheadY[i]!];
    let k = i;
    for (; k > 0 && isBefore(x, y, aheadX[k - 1]!, aheadY[k - 1]!); k--) {
      spokes[k] = spokes[k - 1]!;
      aheadX[k] = aheadX[k - 1]!;
      aheadY[k] = aheadY[k - 1]!;
    }
    spokes[k] = h;
    aheadX[k] = x;
    aheadY[k] = y;
  }
}

/** Whether direction p comes before q, counter-clockwise from due east. */
function isBefore(px: number, py: number, qx: number, qy: number): boolean {
  const pBack = py < 0 || (py === 0 && px < 0);
  const qBack = qy < 0 || (qy === 0 && qx < 0);
  return pBack === qBack ? px * qy > py * qx : qBack;
}

/** Whether the cycle runs counter-clockwise round a face of its own: its swept area is positive. */
function isInner(work: NodedLinework, tracks: readonly Track[], next: Int32Array, start: number): boolean {
  let twice = 0;
  let terms = 0;
  let h = start;
  do {
    const t = tracks[h >> 1]!;
    twice += (h & 1) === 0 ? t.swept : -t.swept;
    terms += t.terms;
    h = next[h]!;
  } while (h !== start);
  return terms < 2 ** 53 ? twice > 0 : sweptExactly(work, tracks, next, start) > 0n;
}

function sweptExactly(
  work: NodedLinework,
  tracks: readonly Track[],
  next: Int32Array,
  start: number,
): bigint {
  let twice = 0n;
  let h = start;
  do {
    let along = 0n;
    // A difference of two products below 2^47 is exact.
    eachPiece(work, tracks[h >> 1]!, (ax, ay, bx, by) => {
      along += BigInt(ax * by - ay * bx);
    });
    twice += (h & 1) === 0 ? along : -along;
    h = next[h]!;
  } while (h !== start);
  return twice;
}

interface Cycles {
  readonly next: Int32Array;
  readonly cycles: readonly number[];
  readonly inner: readonly boolean[];
  readonly cycleOf: Int32Array;
  readonly faceOfCycle: Int32Array;
}

/** Above this many edges an index pays for itself. */
const FEW_EDGES = 64;

/** Gives the outer cycle of each connected component the face that surrounds it. */
function placeComponents(work: NodedLinework, tracks: readonly Track[], found: Cycles): void {
  const { next, cycles, inner, cycleOf, faceOfCycle } = found;
  const outer: Array<{ cycle: number; x: number; y: number }> = [];
  cycles.forEach((start, cycle) => {
    if (!inner[cycle]) outer.push({ cycle, ...leftmostOf(tracks, next, start) });
  });
  if (outer.length === 1) {
    faceOfCycle[outer[0]!.cycle] = 0;
    return;
  }
  const component = components(work);
  const crossing = rowSearch(work, tracks);
  // From left to right: what surrounds a component begins further left, so it is placed already.
  outer.sort((a, b) => a.x - b.x || a.y - b.y);
  for (const { cycle, x, y } of outer) {
    const own = component[work.edges[cycles[cycle]! >> 1]!.from]!;
    const best = crossing(x, y, (e) => component[work.edges[e]!.from] !== own);
    // The side that faces right is the left of the half-edge that runs down.
    faceOfCycle[cycle] = best === null ? 0 : faceOfCycle[cycleOf[best.down ? 2 * best.e : 2 * best.e + 1]!]!;
  }
}

function leftmostOf(tracks: readonly Track[], next: Int32Array, start: number): { x: number; y: number } {
  let x = Infinity;
  let y = Infinity;
  let h = start;
  do {
    const { leftX, leftY } = tracks[h >> 1]!;
    if (leftX < x || (leftX === x && leftY < y)) {
      x = leftX;
      y = leftY;
    }
    h = next[h]!;
  } while (h !== start);
  return { x, y };
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

/** A search for the wanted edge that crosses the row of a point nearest to its left. */
function rowSearch(
  work: NodedLinework,
  tracks: readonly Track[],
): (x: number, y: number, wanted: (e: number) => boolean) => Crossing | null {
  let index: Flatbush | null = null;
  if (tracks.length > FEW_EDGES) {
    index = new Flatbush(tracks.length);
    for (const t of tracks) index.add(t.minX, t.minY, t.maxX, t.maxY);
    index.finish();
  }
  return (x, y, wanted) => {
    let best: Crossing | null = null;
    const look = (e: number): false => {
      const t = tracks[e]!;
      if (t.minY <= y && t.maxY >= y && t.minX <= x && wanted(e)) best = nearestLeft(work, t, e, x, y, best);
      return false;
    };
    if (index) index.search(-Infinity, y, x, y, look);
    else for (let e = 0; e < tracks.length; e++) look(e);
    return best;
  };
}

/** The crossing of the row that is nearest to the left of x: the best so far, or one of a piece of this edge. */
function nearestLeft(
  { lines: { cx, cy, to } }: NodedLinework,
  { slots, fromX, fromY, toX, toY }: Track,
  e: number,
  x: number,
  y: number,
  best: Crossing | null,
): Crossing | null {
  const n = slots ? slots.length : 1;
  let nearest = best;
  let ax = fromX;
  let ay = fromY;
  for (let i = 0; i < n; i++) {
    const end = slots ? to[slots[i]!]! : -1;
    const bx = slots ? cx[end]! : toX;
    const by = slots ? cy[end]! : toY;
    const down = ay > y;
    if (down !== by > y) {
      const c: Crossing = down
        ? { e, down, lowX: bx, lowY: by, dx: ax - bx, dy: ay - by }
        : { e, down, lowX: ax, lowY: ay, dx: bx - ax, dy: by - ay };
      const reached = (x - c.lowX) * c.dy - (y - c.lowY) * c.dx >= 0;
      if (reached && (nearest === null || isRightOf(c, nearest, y))) nearest = c;
    }
    ax = bx;
    ay = by;
  }
  return nearest;
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
  borders: ReadonlyArray<readonly number[]>,
): ReadonlyArray<ReadonlyMap<number, number>> {
  const none: ReadonlyMap<number, number> = new Map();
  const winding: Array<ReadonlyMap<number, number> | undefined> = new Array(borders.length);
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
