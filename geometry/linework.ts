import type { Arc } from './arc.ts';
import { scratch } from './columns.ts';
import { type Contacts, contacts } from './contacts.ts';
import type { Grid } from './grid.ts';
import { arcAt, type Lines, layOut } from './lines.ts';
import { BESIDE } from './meeting.ts';
import { type Noded, nodeSegments } from './noding.ts';
import { PairTable } from './pair-table.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import type { Rows } from './rows.ts';
import type { Straight } from './straight.ts';
import { offLine, straightCrossing, type TrueLine, trueCrossing } from './true-lines.ts';

/**
 * Linework that meets only at shared vertices, each vertex at its true position.
 *
 * An edge lies between two vertices and touches nothing else on the way. Where linework comes together it is one straight
 * piece (or chord) with everything that runs along it, from the lower-numbered vertex to the higher. Elsewhere it is a
 * run: as many of one source's pieces as meet nothing, in the source's own direction.
 */
export interface NodedLinework {
  readonly grid: Grid;
  readonly lines: Lines;
  /** How many vertices there are; columns of vertices may be longer. */
  readonly vertexCount: number;
  /** Whole cells about the grid's origin: what the topology was decided on. */
  readonly cellX: Int32Array;
  readonly cellY: Int32Array;
  /** True positions about the grid's origin: what lengths and areas are taken from. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** How far from its true place a vertex can lie, or a line through it was bent to it; 0 where it is exact. */
  readonly bent: Float64Array;
  /** How many edges there are; columns of edges may be longer. */
  readonly edgeCount: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** The last slot of a run, which begins at the slot of its use; −1 for a straight piece. */
  readonly lastSlot: Int32Array;
  /** 1 where lines run along an edge, or within a cell of it, that are truly some way apart. */
  readonly loose: Int32Array;
  /** What runs along each edge; the uses of edge e begin at `firstUse[e]` and go on by `nextUse`, up to −1. */
  readonly firstUse: Int32Array;
  readonly uses: Int32Array;
  readonly nextUse: Int32Array;
  /** The slots whose pieces were noded, and for each the vertices along it. */
  readonly nodedSlots: Int32Array;
  readonly chains: Rows;
  readonly contacts: Contacts | null;
}

/** The slot that a use is of: a use is twice the slot, and one more where the source travels the edge backwards. */
export const slotOf = (use: number): number => use >> 1;

/** Where a run begins, and the first of what runs along a straight piece. */
export const firstSlot = ({ firstUse, uses }: NodedLinework, e: number): number =>
  slotOf(uses[firstUse[e]!]!);

/** +1 when the source travels the edge from its `from` to its `to`, else −1. */
export const directionOf = (use: number): 1 | -1 => ((use & 1) === 0 ? 1 : -1);

/** Distance at which two places count as one when it is asked what the grid has bent. */
const SAME_PLACE = 1e-10;

/** Cells that count as bent where anything is: a line may have moved a little on the way to the next vertex too. */
const LEAST_BENT = 2;

/** Rounds of snapping during which nothing can have drifted into a piece that was left out. */
const SAFE_ROUNDS = 4;

/**
 * Gathers the sides of rings and open paths and nodes those that come near each other.
 * @param before what is known of linework much like this
 */
export function nodeLinework(
  slabs: readonly Ring[],
  cuts: ReadonlyArray<readonly Point[]>,
  voids: readonly Ring[],
  weld = 0,
  straight: readonly (Straight | null)[] = [],
  before: Contacts | null = null,
): NodedLinework {
  const lines = layOut(slabs, cuts, voids, weld, straight);
  const mark = scratch.mark();
  const busy = scratch.int32(lines.to.length).fill(0);
  const found = contacts(lines, busy, before);
  let slots = busySlots(lines, busy);
  let noded = nodeSegments(slots, lines.to, lines.cx, lines.cy);
  if (noded.rounds > SAFE_ROUNDS) {
    // Snapping went on for so long that it may have come near what was left out: node everything.
    for (let i = 0; i < busy.length; i++) busy[i] ||= 1;
    slots = busySlots(lines, busy);
    noded = nodeSegments(slots, lines.to, lines.cx, lines.cy);
  }
  const work = new Stringer(lines, busy, slots, noded, found).finish();
  scratch.release(mark);
  return work;
}

/** The pieces to be noded. */
function busySlots({ to }: Lines, busy: Int32Array): Int32Array {
  const slots = scratch.int32(to.length);
  let n = 0;
  for (let i = 0; i < to.length; i++) if (busy[i] && to[i]! >= 0) slots[n++] = i;
  return slots.subarray(0, n);
}

/** Puts noded pieces and untouched ones together into vertices and edges. */
class Stringer {
  private vertexCount: number;
  private readonly cellX: Int32Array;
  private readonly cellY: Int32Array;
  private readonly x: Float64Array;
  private readonly y: Float64Array;
  private readonly bent: Float64Array;
  private edgeCount = 0;
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly lastSlot: Int32Array;
  private readonly loose: Int32Array;
  private readonly firstUse: Int32Array;
  private useCount = 0;
  private readonly uses: Int32Array;
  private readonly nextUse: Int32Array;
  /** Vertex at each slot's point. */
  private readonly vertexOf: Int32Array;
  private readonly nodedSlots: Int32Array;
  private readonly chains: Rows;
  /** Straight pieces by their ends: as many as the first edges, and in their order. */
  private readonly straight: PairTable;

  constructor(
    private readonly lines: Lines,
    private readonly busy: Int32Array,
    private readonly slots: Int32Array,
    private readonly noded: Noded,
    private readonly contacts: Contacts | null,
  ) {
    // A run begins and ends at vertices that are there already, or else is a whole outline or path.
    const vertices = noded.x.length + 2 * lines.sources.count;
    const pieces = noded.chains.length - slots.length;
    const edges = pieces + slots.length + lines.sources.count;
    const { columns } = lines;
    this.x = columns.float64(vertices);
    this.y = columns.float64(vertices);
    this.bent = columns.float64(vertices);
    this.cellX = columns.int32(vertices);
    this.cellY = columns.int32(vertices);
    this.from = columns.int32(edges);
    this.to = columns.int32(edges);
    this.lastSlot = columns.int32(edges);
    this.loose = columns.int32(edges);
    this.firstUse = columns.int32(edges);
    this.uses = columns.int32(edges);
    this.nextUse = columns.int32(edges);
    this.nodedSlots = columns.copied(slots);
    this.chains = { first: columns.copied(noded.first), items: columns.copied(noded.chains) };
    this.vertexCount = noded.x.length;
    for (let v = 0; v < noded.x.length; v++) {
      this.cellX[v] = noded.x[v]!;
      this.cellY[v] = noded.y[v]!;
    }
    this.vertexOf = scratch.int32(lines.to.length).fill(-1);
    this.straight = new PairTable(pieces);
    this.lift();
  }

  finish(): NodedLinework {
    const { lines, slots, noded, vertexOf } = this;
    const { chains, first } = noded;
    for (let p = 0; p < slots.length; p++) {
      const slot = slots[p]!;
      const end = first[p + 1]!;
      vertexOf[slot] = chains[first[p]!]!;
      vertexOf[lines.to[slot]!] = chains[end - 1]!;
      for (let i = first[p]! + 1; i < end; i++) this.step(slot, chains[i - 1]!, chains[i]!);
    }
    for (let s = 0; s < lines.sources.count; s++) this.stringUp(lines.first[s]!, lines.first[s + 1]!);
    const { cellX, cellY, x, y, bent, from, to, lastSlot, loose, firstUse, uses, nextUse } = this;
    return {
      grid: lines.grid,
      lines,
      vertexCount: this.vertexCount,
      cellX,
      cellY,
      x,
      y,
      bent,
      edgeCount: this.edgeCount,
      from,
      to,
      lastSlot,
      loose,
      firstUse,
      uses,
      nextUse,
      nodedSlots: this.nodedSlots,
      chains: this.chains,
      contacts: this.contacts,
    };
  }

  private step(slot: number, u: number, v: number): void {
    const edge = this.straight.at(Math.min(u, v), Math.max(u, v));
    const use = 2 * slot + (u < v ? 0 : 1);
    if (edge === this.edgeCount) this.addEdge(Math.min(u, v), Math.max(u, v), use, -1);
    else {
      let last = this.firstUse[edge]!;
      while (this.nextUse[last]! >= 0) last = this.nextUse[last]!;
      this.nextUse[last] = this.addUse(use);
    }
    // Ends lie on their own line by now; whether they lie on the other's too is what counts.
    if (
      this.busy[slot] === BESIDE ||
      (!this.loose[edge] && (this.off(slot, u) > SAME_PLACE || this.off(slot, v) > SAME_PLACE))
    ) {
      this.loose[edge] = 1;
    }
  }

  private addEdge(from: number, to: number, use: number, lastSlot: number): void {
    const e = this.edgeCount++;
    this.from[e] = from;
    this.to[e] = to;
    this.lastSlot[e] = lastSlot;
    this.firstUse[e] = this.addUse(use);
  }

  private addUse(use: number): number {
    const n = this.useCount++;
    this.uses[n] = use;
    this.nextUse[n] = -1;
    return n;
  }

  /** Makes edges of the untouched pieces of one source, from one noded piece to the next. */
  private stringUp(first: number, end: number): void {
    const { busy } = this;
    const { to } = this.lines;
    // Begin at a noded piece, so that no run is broken at the first slot; an outline that meets nothing has none.
    let start = first;
    for (let i = first; i < end; i++) {
      if (busy[i] || to[i]! < 0) {
        start = i;
        break;
      }
    }
    let begun = -1;
    let last = -1;
    for (let n = 0, i = start; n < end - first; n++, i = i + 1 === end ? first : i + 1) {
      if (busy[i] || to[i]! < 0) {
        if (begun >= 0) this.addRun(begun, last);
        begun = -1;
        continue;
      }
      if (begun < 0) begun = i;
      last = i;
    }
    if (begun >= 0) this.addRun(begun, last);
  }

  private addRun(first: number, last: number): void {
    this.addEdge(this.vertexAt(first), this.vertexAt(this.lines.to[last]!), 2 * first, last);
  }

  private vertexAt(slot: number): number {
    let v = this.vertexOf[slot]!;
    if (v < 0) {
      const { x, y, cx, cy } = this.lines;
      v = this.vertexCount++;
      this.cellX[v] = cx[slot]!;
      this.cellY[v] = cy[slot]!;
      this.x[v] = x[slot]!;
      this.y[v] = y[slot]!;
      this.vertexOf[slot] = v;
    }
    return v;
  }

  /**
   * Takes each vertex from its cell back to where it truly is: an end to its own coordinates, a crossing to where its
   * two true lines meet. Topology stays that of the grid, so sums over both sides of an edge stay exact, while areas
   * lose the rounding of the grid wherever no line had to be bent.
   */
  private lift(): void {
    const { x, y, cellX, cellY, lines, slots, bent } = this;
    const { chains, first } = this.noded;
    const { cell } = lines.grid;
    const n = this.vertexCount;
    const known = scratch.int32(n).fill(0);
    // The slots that run through each vertex, as lists linked by their places in the chains.
    const lastThrough = scratch.int32(n).fill(-1);
    const before = scratch.int32(chains.length);
    const slotAt = scratch.int32(chains.length);
    for (let p = 0; p < slots.length; p++) {
      const slot = slots[p]!;
      const start = first[p]!;
      const end = first[p + 1]! - 1;
      this.settle(chains[start]!, slot, known);
      this.settle(chains[end]!, lines.to[slot]!, known);
      for (let i = start + 1; i < end; i++) {
        const v = chains[i]!;
        slotAt[i] = slot;
        before[i] = lastThrough[v]!;
        lastThrough[v] = i;
      }
    }
    for (let v = 0; v < n; v++) {
      if (lastThrough[v]! < 0) continue;
      const through: number[] = [];
      for (let i = lastThrough[v]!; i >= 0; i = before[i]!) through.push(slotAt[i]!);
      through.reverse();
      if (!known[v]) {
        const met = this.crossing(through, cellX[v]! * cell, cellY[v]! * cell);
        x[v] = met.x;
        y[v] = met.y;
      }
      // A line may also have been bent through another's end, rather than ending there.
      for (const slot of through) {
        const off = this.off(slot, v);
        if (off > SAME_PLACE) bent[v] = Math.max(bent[v]!, off, LEAST_BENT * cell);
      }
    }
  }

  /** Puts a vertex where the point of a slot is. */
  private settle(v: number, slot: number, known: Int32Array): void {
    const { x, y, lines } = this;
    if (!known[v]) {
      known[v] = 1;
      x[v] = lines.x[slot]!;
      y[v] = lines.y[slot]!;
    } else if (x[v] !== lines.x[slot]! || y[v] !== lines.y[slot]!) {
      // Two ends in one cell, but not in one place.
      this.bent[v] = LEAST_BENT * lines.grid.cell;
    }
  }

  /** How far vertex v lies from the true line of a slot. */
  private off(slot: number, v: number): number {
    const { x, y, to } = this.lines;
    const end = to[slot]!;
    return offLine(x[slot]!, y[slot]!, x[end]!, y[end]!, arcAt(this.lines, slot), this.x[v]!, this.y[v]!);
  }

  /** Where the lines of slots truly cross that run through one cell. */
  private crossing(slots: readonly number[], atX: number, atY: number): Point {
    const { x, y, to, arcs, grid } = this.lines;
    if (slots.length > 2 || arcs) {
      const lines = slots.map((slot) => this.trueLine(slot));
      return trueCrossing(lines, { x: atX, y: atY }, grid.cell);
    }
    const [p, q] = [slots[0]!, slots[1]!];
    const [a, b] = [to[p]!, to[q]!];
    return straightCrossing(x[p]!, y[p]!, x[a]!, y[a]!, x[q]!, y[q]!, x[b]!, y[b]!, atX, atY, grid.cell);
  }

  private trueLine(slot: number): TrueLine {
    const { x, y, to } = this.lines;
    const end = to[slot]!;
    return { a: { x: x[slot]!, y: y[slot]! }, b: { x: x[end]!, y: y[end]! }, arc: arcAt(this.lines, slot) };
  }
}

/** Each void's outline as it runs on the grid, before anything is taken from anything; in whole cells. */
export function voidCells({ lines, nodedSlots, chains, cellX, cellY }: NodedLinework): Point[][] {
  const chainOf = new Map<number, number>();
  nodedSlots.forEach((slot, p) => {
    chainOf.set(slot, p);
  });
  const { sources, first, cx, cy } = lines;
  return Array.from({ length: sources.voids }, (_, index) => {
    const points: Point[] = [];
    const s = sources.ofVoid(index);
    for (let i = first[s]!; i < first[s + 1]!; i++) {
      const p = chainOf.get(i);
      if (p === undefined) points.push({ x: cx[i]!, y: cy[i]! });
      else {
        for (let k = chains.first[p]!; k < chains.first[p + 1]! - 1; k++) {
          const v = chains.items[k]!;
          points.push({ x: cellX[v]!, y: cellY[v]! });
        }
      }
    }
    return points;
  });
}

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
