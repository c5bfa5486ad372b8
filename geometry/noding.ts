import Flatbush from 'flatbush';

/**
 * Snap rounding on the integer grid: after it, segments meet only at shared vertices.
 *
 * Every end and every crossing makes its unit cell "hot"; a segment that enters a hot cell is bent to pass
 * through the cell's centre. All tests are on integers of at most 2^24, so that the products stay below
 * 2^53 and are exact. Method: Hobby 1999, Guibas and Marimont 1998 (from memory).
 */
export interface Noded {
  /** Cell coordinates of each vertex. */
  readonly x: number[];
  readonly y: number[];
  /** For each input segment the vertices it runs through, in order; one vertex when it shrank to a point. */
  readonly chains: number[][];
  /** Rounds it took until nothing moved. */
  readonly rounds: number;
}

/** A segment between two grid cells: integers of at most 2^24. */
export interface CellSegment {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
}

const KEY = 2 ** 26;
const OFFSET = 2 ** 25;

/** Rounds that may be needed before nothing moves; two are usual. */
const MAX_ROUNDS = 200;

/** Collects vertices by cell, so that equal cells are one vertex. */
class VertexTable {
  readonly x: number[] = [];
  readonly y: number[] = [];
  private readonly byCell = new Map<number, number>();

  at(x: number, y: number): number {
    const key = (x + OFFSET) * KEY + (y + OFFSET);
    let v = this.byCell.get(key);
    if (v === undefined) {
      v = this.x.length;
      this.x.push(x);
      this.y.push(y);
      this.byCell.set(key, v);
    }
    return v;
  }
}

/** Nodes the segments. Never throws on integer input within range. */
export function nodeSegments(segments: readonly CellSegment[]): Noded {
  const table = new VertexTable();
  let chains = segments.map((s) => {
    const a = table.at(s.ax, s.ay);
    const b = table.at(s.bx, s.by);
    return a === b ? [a] : [a, b];
  });
  let rounds = 0;
  while (rounds < MAX_ROUNDS) {
    rounds++;
    const pieces = uniquePieces(chains);
    addCrossings(table, pieces);
    const splits = splitAtHotCells(table, pieces);
    if (splits.size === 0) break;
    chains = chains.map((chain) => refine(chain, splits));
  }
  return { x: table.x, y: table.y, chains, rounds };
}

const pieceKey = (a: number, b: number): number => Math.min(a, b) * KEY + Math.max(a, b);

/** Straight pieces between two vertices, each from the lower-numbered one to the higher. */
interface Pieces {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

function uniquePieces(chains: readonly number[][]): Pieces {
  const seen = new Set<number>();
  const from: number[] = [];
  const to: number[] = [];
  for (const chain of chains) {
    for (let i = 1; i < chain.length; i++) {
      const a = Math.min(chain[i - 1]!, chain[i]!);
      const b = Math.max(chain[i - 1]!, chain[i]!);
      const key = pieceKey(a, b);
      if (seen.has(key)) continue;
      seen.add(key);
      from.push(a);
      to.push(b);
    }
  }
  return { from, to };
}

/** Below this many of a kind looking at each is quicker than building an index. */
const FEW = 100;

/** Adds the cell of each proper crossing as a vertex. */
function addCrossings(table: VertexTable, pieces: Pieces): void {
  const { from, to } = pieces;
  const n = from.length;
  const cells: number[] = [];
  if (n <= FEW) {
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) crossingCell(table, pieces, i, j, cells);
    }
  } else {
    const { x, y } = table;
    const index = new Flatbush(n);
    for (let i = 0; i < n; i++) index.add(...boxOf(x, y, from[i]!, to[i]!));
    index.finish();
    for (let i = 0; i < n; i++) {
      index.search(...boxOf(x, y, from[i]!, to[i]!), (j) => {
        if (j > i) crossingCell(table, pieces, i, j, cells);
        return false;
      });
    }
  }
  for (let k = 0; k < cells.length; k += 2) table.at(cells[k]!, cells[k + 1]!);
}

const boxOf = (
  x: readonly number[],
  y: readonly number[],
  a: number,
  b: number,
): [number, number, number, number] => [
  Math.min(x[a]!, x[b]!),
  Math.min(y[a]!, y[b]!),
  Math.max(x[a]!, x[b]!),
  Math.max(y[a]!, y[b]!),
];

/** Appends the cell in which pieces i and j cross inside both; nothing where they do not. */
function crossingCell(
  { x, y }: VertexTable,
  { from, to }: Pieces,
  i: number,
  j: number,
  cells: number[],
): void {
  const a = from[i]!;
  const b = to[i]!;
  const c = from[j]!;
  const d = to[j]!;
  if (a === c || a === d || b === c || b === d) return;
  const ax = x[a]!;
  const ay = y[a]!;
  const dx = x[b]! - ax;
  const dy = y[b]! - ay;
  const cx = x[c]! - ax;
  const cy = y[c]! - ay;
  const ex = x[d]! - ax;
  const ey = y[d]! - ay;
  const sideC = dx * cy - dy * cx;
  const sideD = dx * ey - dy * ex;
  if (sideC > 0 === sideD > 0 || sideC === 0 || sideD === 0) return;
  const fx = ex - cx;
  const fy = ey - cy;
  const sideA = fy * cx - fx * cy;
  const sideB = fx * (dy - cy) - fy * (dx - cx);
  if (sideA > 0 === sideB > 0 || sideA === 0 || sideB === 0) return;
  const t = sideC / (sideC - sideD);
  cells.push(Math.round(ax + cx + fx * t), Math.round(ay + cy + fy * t));
}

/** For each piece that enters a hot cell other than its own ends: the vertices it must run through. */
function splitAtHotCells({ x, y }: VertexTable, { from, to }: Pieces): Map<number, number[]> {
  const n = x.length;
  const splits = new Map<number, number[]>();
  let index: Flatbush | null = null;
  if (n > FEW) {
    index = new Flatbush(n);
    for (let v = 0; v < n; v++) index.add(x[v]!, y[v]!, x[v]!, y[v]!);
    index.finish();
  }
  for (let i = 0; i < from.length; i++) {
    const a = from[i]!;
    const b = to[i]!;
    const ax = x[a]!;
    const ay = y[a]!;
    const bx = x[b]!;
    const by = y[b]!;
    let hits: number[] | null = null;
    const visit = (v: number): false => {
      if (v === a || v === b || !entersCell(ax, ay, bx, by, x[v]!, y[v]!)) return false;
      if (hits) hits.push(v);
      else hits = [v];
      return false;
    };
    if (index) {
      const half = 0.5;
      index.search(
        Math.min(ax, bx) - half,
        Math.min(ay, by) - half,
        Math.max(ax, bx) + half,
        Math.max(ay, by) + half,
        visit,
      );
    } else for (let v = 0; v < n; v++) visit(v);
    if (hits !== null)
      splits.set(
        pieceKey(a, b),
        inOrder(hits, (v) => (x[v]! - ax) * (bx - ax) + (y[v]! - ay) * (by - ay)),
      );
  }
  return splits;
}

const inOrder = (vertices: number[], along: (v: number) => number): number[] =>
  vertices.length === 1 ? vertices : vertices.sort((p, q) => along(p) - along(q) || p - q);

/**
 * Whether the segment enters the unit cell about (cx, cy): its lower and left edges belong to it, its upper
 * and right ones do not, so that each point of the plane has one cell. Works on doubled coordinates, exactly.
 */
function entersCell(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): boolean {
  // Travel rightwards, and put the cell's centre at the origin at twice the size: its corners are (±1, ±1).
  const flip = ax > bx || (ax === bx && ay > by);
  const px = 2 * ((flip ? bx : ax) - cx);
  const py = 2 * ((flip ? by : ay) - cy);
  const qx = 2 * ((flip ? ax : bx) - cx);
  const qy = 2 * ((flip ? ay : by) - cy);
  if (px >= 1 || qx < -1 || Math.min(py, qy) >= 1 || Math.max(py, qy) < -1) return false;
  if (px === qx || py === qy) return true;
  const dx = qx - px;
  const dy = qy - py;
  const side = (x: number, y: number) => dx * (y - py) - dy * (x - px);
  const rising = dy > 0;
  const upperLeft = side(-1, 1);
  const lowerRight = side(1, -1);
  // A rising segment separates upper left from lower right; a falling one lower left from upper right.
  if (rising) {
    // Through the upper-left or lower-right corner only: neither corner is of the cell (half-open edges).
    return upperLeft > 0 && lowerRight < 0;
  }
  const lowerLeft = side(-1, -1);
  const upperRight = side(1, 1);
  return upperRight > 0 && lowerLeft <= 0;
}

function refine(chain: readonly number[], splits: ReadonlyMap<number, number[]>): number[] {
  const out = [chain[0]!];
  for (let i = 1; i < chain.length; i++) {
    const a = chain[i - 1]!;
    const b = chain[i]!;
    const hits = splits.get(pieceKey(a, b));
    // Hits are listed from the lower-numbered vertex to the higher.
    if (hits) out.push(...(a < b ? hits : [...hits].reverse()));
    out.push(b);
  }
  return out;
}
