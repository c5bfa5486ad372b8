import type { Arc } from './arc.ts';
import { BESIDE, contacts } from './contacts.ts';
import type { Grid } from './grid.ts';
import { type Lines, layOut, type Source } from './lines.ts';
import { type Noded, nodeSegments } from './noding.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import { offLine, type TrueLine, trueCrossing } from './true-lines.ts';

/** A source that runs along an edge: on which of its sides, in which direction, on which circle. */
export interface Use {
  readonly source: number;
  readonly side: number;
  /** +1 when the source travels the edge from `from` to `to`. */
  readonly direction: 1 | -1;
  readonly arc: Arc | null;
}

/**
 * An edge between two vertices that touches nothing else on the way. Where linework comes together it is one straight
 * piece (or chord) with everything that runs along it, from the lower-numbered vertex to the higher. Elsewhere it is as
 * long a run of one source's pieces as meets nothing, in the source's own direction; its `slots` are those pieces.
 */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly uses: Use[];
  readonly slots: readonly number[] | null;
  /** Lines run along it, or within a cell of it, that are truly some way apart. */
  loose: boolean;
}

/** Linework that meets only at shared vertices, each vertex at its true position. */
export interface NodedLinework {
  readonly grid: Grid;
  readonly sources: readonly Source[];
  readonly lines: Lines;
  /** Whole cells about the grid's origin: what the topology was decided on. */
  readonly cellX: readonly number[];
  readonly cellY: readonly number[];
  /** True positions about the grid's origin: what lengths and areas are taken from. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** How far from its true place a vertex can lie, or a line through it was bent to it; 0 where it is exact. */
  readonly bent: Float64Array;
  readonly edges: readonly Edge[];
  /** Each void's outline as it runs on the grid, before anything is taken from anything; in whole cells. */
  readonly voidCells: () => Point[][];
}

/** Distance at which two places count as one when it is asked what the grid has bent. */
const SAME_PLACE = 1e-10;

/** Cells that count as bent where anything is: a line may have moved a little on the way to the next vertex too. */
const LEAST_BENT = 2;

/** Rounds of snapping during which nothing can have drifted into a piece that was left out. */
const SAFE_ROUNDS = 4;

/** Gathers the sides of rings and open paths and nodes those that come near each other. */
export function nodeLinework(
  slabs: readonly Ring[],
  cuts: ReadonlyArray<readonly Point[]>,
  voids: readonly Ring[],
  weld = 0,
): NodedLinework {
  const lines = layOut(slabs, cuts, voids, weld);
  const busy = contacts(lines);
  const { slots, noded } = nodeBusy(lines, busy);
  if (noded.rounds <= SAFE_ROUNDS) return new Stringer(lines, busy, slots, noded).finish();
  // Snapping went on for so long that it may have come near what was left out: node everything.
  const all = busy.map((b) => b || 1);
  const again = nodeBusy(lines, all);
  return new Stringer(lines, all, again.slots, again.noded).finish();
}

/** Nodes the busy pieces; `slots` says which they are, in the order of the chains. */
function nodeBusy(lines: Lines, busy: Uint8Array): { slots: number[]; noded: Noded } {
  const { to, cx, cy } = lines;
  const slots: number[] = [];
  for (let i = 0; i < to.length; i++) if (busy[i] && to[i]! >= 0) slots.push(i);
  const segments = slots.map((i) => ({ ax: cx[i]!, ay: cy[i]!, bx: cx[to[i]!]!, by: cy[to[i]!]! }));
  return { slots, noded: nodeSegments(segments) };
}

/** Puts noded pieces and untouched ones together into vertices and edges. */
class Stringer {
  private readonly cellX: number[];
  private readonly cellY: number[];
  private readonly x: number[] = [];
  private readonly y: number[] = [];
  private readonly bent: Float64Array;
  private readonly chainOf: Array<readonly number[] | undefined>;
  /** Vertex at each slot's point. */
  private readonly vertexOf: Int32Array;
  private readonly edges: Edge[] = [];
  private readonly byKey = new Map<number, Edge>();

  constructor(
    private readonly lines: Lines,
    private readonly busy: Uint8Array,
    private readonly slots: readonly number[],
    noded: Noded,
  ) {
    this.cellX = noded.x;
    this.cellY = noded.y;
    this.bent = new Float64Array(noded.x.length);
    this.chainOf = new Array(lines.to.length);
    slots.forEach((slot, p) => {
      this.chainOf[slot] = noded.chains[p]!;
    });
    this.vertexOf = new Int32Array(lines.to.length).fill(-1);
    this.lift(noded);
  }

  finish(): NodedLinework {
    const { lines, cellX, cellY, x, y, bent, edges } = this;
    for (const slot of this.slots) {
      const chain = this.chainOf[slot]!;
      this.vertexOf[slot] = chain[0]!;
      this.vertexOf[lines.to[slot]!] = chain[chain.length - 1]!;
      for (let i = 1; i < chain.length; i++) this.step(slot, chain[i - 1]!, chain[i]!);
    }
    for (let s = 0; s < lines.sources.length; s++) this.stringUp(lines.first[s]!, lines.first[s + 1]!);
    const voidCells = () => this.voidCells();
    return {
      grid: lines.grid,
      sources: lines.sources,
      lines,
      cellX,
      cellY,
      x,
      y,
      bent,
      edges,
      voidCells,
    };
  }

  private step(slot: number, u: number, v: number): void {
    const { source, side, arc } = this.lines;
    const from = Math.min(u, v);
    const to = Math.max(u, v);
    const key = from * 2 ** 26 + to;
    let edge = this.byKey.get(key);
    if (!edge) {
      edge = { from, to, uses: [], slots: null, loose: false };
      this.byKey.set(key, edge);
      this.edges.push(edge);
    }
    // Ends lie on their own line by now; whether they lie on the other's too is what counts.
    if (!edge.loose) {
      edge.loose =
        this.busy[slot] === BESIDE || this.off(slot, u) > SAME_PLACE || this.off(slot, v) > SAME_PLACE;
    }
    edge.uses.push({
      source: source[slot]!,
      side: side[slot]!,
      direction: u < v ? 1 : -1,
      arc: arc[slot]!,
    });
  }

  /** Makes edges of the untouched pieces of one source, from one noded piece to the next. */
  private stringUp(first: number, end: number): void {
    const { to } = this.lines;
    if (first === end) return;
    // Begin behind a noded piece, so that no run is broken at the first slot; an outline that meets nothing has none.
    let start = first;
    for (let i = first; i < end; i++) {
      if (this.busy[i] || to[i]! < 0) {
        start = i;
        break;
      }
    }
    let run: number[] = [];
    for (let n = 0; n < end - first; n++) {
      const i = first + ((start - first + n) % (end - first));
      if (this.busy[i] || to[i]! < 0) {
        this.finishRun(run);
        run = [];
      } else run.push(i);
    }
    this.finishRun(run);
  }

  private finishRun(run: number[]): void {
    if (run.length === 0) return;
    const { to, source } = this.lines;
    const from = this.vertexAt(run[0]!);
    const last = this.vertexAt(to[run[run.length - 1]!]!);
    const uses: Use[] = [{ source: source[run[0]!]!, side: -1, direction: 1, arc: null }];
    this.edges.push({ from, to: last, uses, slots: run, loose: false });
  }

  private vertexAt(slot: number): number {
    let v = this.vertexOf[slot]!;
    if (v < 0) {
      const { x, y, cx, cy } = this.lines;
      v = this.cellX.length;
      this.cellX.push(cx[slot]!);
      this.cellY.push(cy[slot]!);
      this.x.push(x[slot]!);
      this.y.push(y[slot]!);
      this.vertexOf[slot] = v;
    }
    return v;
  }

  /**
   * Takes each vertex from its cell back to where it truly is: an end to its own coordinates, a crossing to where its
   * two true lines meet. Topology stays that of the grid, so sums over both sides of an edge stay exact, while areas
   * lose the rounding of the grid wherever no line had to be bent.
   */
  private lift(noded: Noded): void {
    const { x, y, lines, bent } = this;
    const n = noded.x.length;
    const { cell } = lines.grid;
    const known = new Uint8Array(n);
    const through: Array<number[] | undefined> = new Array(n);
    for (let v = 0; v < n; v++) {
      x.push(0);
      y.push(0);
    }
    const settle = (v: number, slot: number) => {
      if (known[v]) {
        // Two ends in one cell, but not in one place.
        if (x[v] !== lines.x[slot]! || y[v] !== lines.y[slot]!) bent[v] = LEAST_BENT * cell;
        return;
      }
      known[v] = 1;
      x[v] = lines.x[slot]!;
      y[v] = lines.y[slot]!;
    };
    this.slots.forEach((slot, p) => {
      const chain = noded.chains[p]!;
      settle(chain[0]!, slot);
      settle(chain[chain.length - 1]!, lines.to[slot]!);
      for (let i = 1; i + 1 < chain.length; i++) {
        const v = chain[i]!;
        if (through[v]) through[v]!.push(slot);
        else through[v] = [slot];
      }
    });
    for (let v = 0; v < n; v++) {
      const crossing = through[v];
      if (!crossing) continue;
      if (!known[v]) {
        const at = { x: noded.x[v]! * cell, y: noded.y[v]! * cell };
        const lines = crossing.map((slot) => this.trueLine(slot));
        const met = trueCrossing(lines, at, cell);
        x[v] = met.x;
        y[v] = met.y;
      }
      // A line may also have been bent through another's end, rather than ending there.
      for (const slot of crossing) {
        const off = this.off(slot, v);
        if (off > SAME_PLACE) bent[v] = Math.max(bent[v]!, off, LEAST_BENT * cell);
      }
    }
  }

  /** How far vertex v lies from the true line of a slot. */
  private off(slot: number, v: number): number {
    const { x, y, to, arc } = this.lines;
    const end = to[slot]!;
    return offLine(x[slot]!, y[slot]!, x[end]!, y[end]!, arc[slot]!, this.x[v]!, this.y[v]!);
  }

  private trueLine(slot: number): TrueLine {
    const { x, y, to, arc } = this.lines;
    const end = to[slot]!;
    return { a: { x: x[slot]!, y: y[slot]! }, b: { x: x[end]!, y: y[end]! }, arc: arc[slot]! };
  }

  private voidCells(): Point[][] {
    const { lines, cellX, cellY } = this;
    const outlines: Point[][] = [];
    lines.sources.forEach(({ kind, index }, s) => {
      if (kind !== 'void') return;
      const points: Point[] = [];
      for (let i = lines.first[s]!; i < lines.first[s + 1]!; i++) {
        const chain = this.chainOf[i];
        if (!chain) points.push({ x: lines.cx[i]!, y: lines.cy[i]! });
        else for (const v of chain.slice(0, -1)) points.push({ x: cellX[v]!, y: cellY[v]! });
      }
      outlines[index] = points;
    });
    return outlines;
  }
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
