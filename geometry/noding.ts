import Flatbush from 'flatbush';
import { anyNegative } from './any-negative.ts';
import { scratch } from './columns.ts';
import { PairTable } from './pair-table.ts';

/** What snap rounding makes of segments: pieces that meet only at shared vertices. */
export interface Noded {
  /** Cell coordinates of each vertex. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /**
   * The vertices each segment runs through, in order, one segment after another: those of segment i stand from `first[i]`
   * up to `first[i + 1]`. A segment that shrank to a point has one.
   */
  readonly chains: readonly number[];
  readonly first: readonly number[];
  /** Rounds it took until nothing moved. */
  readonly rounds: number;
}

/** Rounds that may be needed before nothing moves; two are usual. */
const MAX_ROUNDS = 200;

/** Below this many of a kind looking at each is quicker than building an index. */
const FEW = 200;

/**
 * Snap rounding on the integer grid of the segments `from[i]`–`to[from[i]]` between points (cx, cy), integers of at most
 * 2^24. Every end and every crossing makes its unit cell "hot"; a segment that enters a hot cell is bent to pass through
 * the cell's centre. All products stay below 2^53 and are exact. Never throws on integer input within range.
 * Method: Hobby 1999, Guibas and Marimont 1998 (from memory).
 */
export function nodeSegments(from: Int32Array, to: Int32Array, cx: Int32Array, cy: Int32Array): Noded {
  const mark = scratch.mark();
  const noded = new Noding(from, to, cx, cy).run();
  scratch.release(mark);
  return noded;
}

/** One run of the algorithm. A piece is what lies straight between two vertices, whoever runs along it. */
class Noding {
  /** Cell coordinates of the vertices. */
  private readonly vertices: PairTable;
  /** Ends of the pieces, the lower-numbered vertex first. */
  private readonly pieces: PairTable;
  /** For each piece, its box. */
  private readonly boxes: number[] = [];
  /** For each piece, how many vertices it was held against: those before need not be looked at again; −1 once it was split. */
  private readonly seen: number[] = [];
  /** For each piece that was split: the vertices it must run through, from its first end to its second. */
  private readonly through: Array<readonly number[] | undefined> = [];
  private chains: number[] = [];
  private first: number[] = [0];

  constructor(from: Int32Array, to: Int32Array, cx: Int32Array, cy: Int32Array) {
    this.vertices = new PairTable(2 * from.length);
    this.pieces = new PairTable(2 * from.length);
    for (const i of from) {
      const a = this.vertices.at(cx[i]!, cy[i]!);
      const b = this.vertices.at(cx[to[i]!]!, cy[to[i]!]!);
      this.chains.push(a);
      if (b !== a) {
        this.chains.push(b);
        this.addPiece(a, b);
      }
      this.first.push(this.chains.length);
    }
  }

  run(): Noded {
    let rounds = 0;
    do rounds++;
    while (this.splitPieces() && rounds < MAX_ROUNDS);
    const { vertices, chains, first } = this;
    return { x: vertices.a, y: vertices.b, chains, first, rounds };
  }

  private addPiece(u: number, v: number): void {
    const { pieces, vertices, boxes, seen } = this;
    const piece = u < v ? pieces.at(u, v) : pieces.at(v, u);
    if (seen[piece]! >= 0) return;
    // New, or split before and here again.
    seen[piece] = 0;
    const ux = vertices.a[u]!;
    const uy = vertices.b[u]!;
    const vx = vertices.a[v]!;
    const vy = vertices.b[v]!;
    boxes[4 * piece] = Math.min(ux, vx);
    boxes[4 * piece + 1] = Math.min(uy, vy);
    boxes[4 * piece + 2] = Math.max(ux, vx);
    boxes[4 * piece + 3] = Math.max(uy, vy);
  }

  /** One round; false when nothing moved. */
  private splitPieces(): boolean {
    this.addCrossings();
    if (!this.findHits()) return false;
    const { chains, first, pieces, through } = this;
    this.chains = [];
    this.first = [0];
    for (let i = 0; i + 1 < first.length; i++) {
      this.chains.push(chains[first[i]!]!);
      for (let k = first[i]! + 1; k < first[i + 1]!; k++) {
        const u = chains[k - 1]!;
        const v = chains[k]!;
        const piece = u < v ? pieces.at(u, v) : pieces.at(v, u);
        const hits: readonly number[] = this.seen[piece]! < 0 ? through[piece]! : NONE;
        for (let n = 0; n < hits.length; n++) this.chains.push(hits[u < v ? n : hits.length - 1 - n]!);
        this.chains.push(v);
      }
      this.first.push(this.chains.length);
    }
    // Only now, as a piece that was split must stay known as such to all that run along it.
    const { first: starts } = this;
    for (let i = 0; i + 1 < starts.length; i++) {
      for (let k = starts[i]! + 1; k < starts[i + 1]!; k++)
        this.addPiece(this.chains[k - 1]!, this.chains[k]!);
    }
    return true;
  }

  /** Makes the cell of each proper crossing a vertex. */
  private addCrossings(): void {
    const { seen, vertices } = this;
    const cells: number[] = [];
    if (seen.length <= FEW) this.crossAll(cells);
    else this.crossIndexed(cells);
    for (let k = 0; k < cells.length; k += 2) vertices.at(cells[k]!, cells[k + 1]!);
  }

  private crossAll(cells: number[]): void {
    const { boxes, seen } = this;
    const n = seen.length;
    for (let i = 0; i < n; i++) {
      if (seen[i]! < 0) continue;
      const minX = boxes[4 * i]!;
      const minY = boxes[4 * i + 1]!;
      const maxX = boxes[4 * i + 2]!;
      const maxY = boxes[4 * i + 3]!;
      for (let j = i + 1; j < n; j++) {
        if (
          anyNegative(
            maxX - boxes[4 * j]!,
            boxes[4 * j + 2]! - minX,
            maxY - boxes[4 * j + 1]!,
            boxes[4 * j + 3]! - minY,
          )
        )
          continue;
        // Two that were held against each other in an earlier round have not moved since.
        if (seen[j]! < 0 || (seen[i]! > 0 && seen[j]! > 0)) continue;
        this.crossingCell(i, j, cells);
      }
    }
  }

  private crossIndexed(cells: number[]): void {
    const { boxes, seen } = this;
    const n = seen.length;
    const index = new Flatbush(n);
    for (let i = 0; i < n; i++)
      index.add(boxes[4 * i]!, boxes[4 * i + 1]!, boxes[4 * i + 2]!, boxes[4 * i + 3]!);
    index.finish();
    for (let i = 0; i < n; i++) {
      if (seen[i] !== 0) continue;
      index.search(boxes[4 * i]!, boxes[4 * i + 1]!, boxes[4 * i + 2]!, boxes[4 * i + 3]!, (j) => {
        if (seen[j]! > 0 || (seen[j] === 0 && j > i)) this.crossingCell(i, j, cells);
        return false;
      });
    }
  }

  /** Appends the cell in which pieces i and j cross; nothing where they do not, or share an end. */
  private crossingCell(i: number, j: number, cells: number[]): void {
    const { a: from, b: to } = this.pieces;
    const { a: x, b: y } = this.vertices;
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
    if (sideC > 0 === sideD > 0) return;
    const fx = ex - cx;
    const fy = ey - cy;
    const sideA = fy * cx - fx * cy;
    const sideB = fx * (dy - cy) - fy * (dx - cx);
    if (sideA > 0 === sideB > 0) return;
    const t = sideC / (sideC - sideD);
    cells.push(Math.round(ax + cx + fx * t), Math.round(ay + cy + fy * t));
  }

  /** Finds the vertices that each piece must run through, other than its own ends; false when there are none. */
  private findHits(): boolean {
    const { seen } = this;
    const n = this.vertices.a.length;
    const index = n > FEW ? this.vertexIndex() : null;
    let found = false;
    for (let i = 0; i < seen.length; i++) {
      const start = seen[i]!;
      if (start < 0 || start === n) continue;
      const hits = index ? this.hitsIndexed(i, start, index) : this.hitsAmongAll(i, start);
      seen[i] = hits.length > 0 ? -1 : n;
      if (hits.length === 0) continue;
      this.through[i] = this.inOrder(i, hits);
      found = true;
    }
    return found;
  }

  private vertexIndex(): Flatbush {
    const { a: x, b: y } = this.vertices;
    const index = new Flatbush(x.length);
    for (let v = 0; v < x.length; v++) index.add(x[v]!, y[v]!, x[v]!, y[v]!);
    index.finish();
    return index;
  }

  /** Of the vertices from `start` on those that a piece hits. */
  private hitsAmongAll(i: number, start: number): number[] {
    const { boxes } = this;
    const { a: x, b: y } = this.vertices;
    // A cell reaches half a unit from its centre, so that one beside the box may still be entered.
    const minX = boxes[4 * i]! - 1;
    const minY = boxes[4 * i + 1]! - 1;
    const maxX = boxes[4 * i + 2]! + 1;
    const maxY = boxes[4 * i + 3]! + 1;
    let hits = NONE;
    for (let v = start; v < x.length; v++) {
      if (anyNegative(x[v]! - minX, maxX - x[v]!, y[v]! - minY, maxY - y[v]!) || !this.isHit(i, v)) continue;
      if (hits === NONE) hits = [v];
      else hits.push(v);
    }
    return hits;
  }

  /** The same by an index of all vertices. */
  private hitsIndexed(i: number, start: number, index: Flatbush): number[] {
    const [minX, minY, maxX, maxY] = this.boxes.slice(4 * i, 4 * i + 4);
    return index.search(minX! - 1, minY! - 1, maxX! + 1, maxY! + 1, (v) => v >= start && this.isHit(i, v));
  }

  /** Whether a piece enters the cell of a vertex that is not its own end. */
  private isHit(i: number, v: number): boolean {
    const { a: x, b: y } = this.vertices;
    const a = this.pieces.a[i]!;
    const b = this.pieces.b[i]!;
    return v !== a && v !== b && entersCell(x[a]!, y[a]!, x[b]!, y[b]!, x[v]!, y[v]!);
  }

  /** Vertices along a piece, from its first end to its second. */
  private inOrder(i: number, vertices: number[]): number[] {
    if (vertices.length === 1) return vertices;
    const { a: x, b: y } = this.vertices;
    const a = this.pieces.a[i]!;
    const b = this.pieces.b[i]!;
    const along = (v: number) => (x[v]! - x[a]!) * (x[b]! - x[a]!) + (y[v]! - y[a]!) * (y[b]! - y[a]!);
    return vertices.sort((p, q) => along(p) - along(q) || p - q);
  }
}

/** Nothing is ever put into it. */
const NONE: number[] = [];

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
