import { type Arc, segmentArea } from './arc.ts';
import type { Columns } from './columns.ts';
import { arcAt } from './lines.ts';
import { directionOf, firstSlot, type NodedLinework, slotOf, turnOnArc } from './linework.ts';
import type { OutlineStep } from './outline.ts';
import type { Plan } from './plan.ts';
import type { Point } from './point.ts';
import { type Side, sideOf } from './ring.ts';

/**
 * What bounds a zone along one side of one outline or cut. `moments` are integrals along it, signed positive where the
 * zone lies left of the side's own direction: of 1, t, 0 along a straight side, t running from 0 to 1 over the whole
 * side; of 1, cos θ, sin θ along an arc, θ being the angle about its centre.
 */
export interface Part {
  readonly side: number;
  readonly length: number;
  readonly moments: readonly [number, number, number];
}

/** A piece of an edge on one side, walked with the zone on the left. */
interface EdgePiece {
  readonly part: Part;
  readonly points: readonly Point[];
}

/** Every edge measured once, from `from` to `to`. */
export interface EdgeMeasures {
  /** Area swept about the grid's origin, true circle segments included. */
  readonly area: Float64Array;
  /** The same of the noded cells, in square cells. */
  readonly cells: Float64Array;
  readonly length: Float64Array;
  /** For each slot of a run, how long its piece is; any number for others. */
  readonly slotLength: Float64Array;
}

/** Measures every edge from true positions; the columns come out of `columns`. */
export function measureEdges(work: NodedLinework, columns: Columns): EdgeMeasures {
  const { x, y, cellX, cellY, from, to, lastSlot, edgeCount, lines } = work;
  const area = columns.float64(edgeCount);
  const cells = columns.float64(edgeCount);
  const length = columns.float64(edgeCount);
  const slotLength = columns.float64(lines.to.length);
  for (let e = 0; e < edgeCount; e++) {
    const last = lastSlot[e]!;
    const [u, v] = [from[e]!, to[e]!];
    let ax = x[u]!;
    let ay = y[u]!;
    if (last < 0) {
      const bx = x[v]!;
      const by = y[v]!;
      const arc = lines.arcs && arcOf(work, e);
      const turn = arc ? turnOnArc(arc, ax, ay, bx, by) : 0;
      area[e] = (ax * by - ay * bx) / 2 + (arc ? segmentArea(arc.radius, turn) : 0);
      length[e] = arc
        ? Math.abs(turn) * arc.radius
        : Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      cells[e] = (cellX[u]! * cellY[v]! - cellY[u]! * cellX[v]!) / 2;
      continue;
    }
    let swept = 0;
    let sweptCells = 0;
    let sum = 0;
    for (let slot = firstSlot(work, e); ; slot = lines.to[slot]!) {
      const end = lines.to[slot]!;
      const bx = slot === last ? x[v]! : lines.x[end]!;
      const by = slot === last ? y[v]! : lines.y[end]!;
      const arc = arcAt(lines, slot);
      const turn = arc ? turnOnArc(arc, ax, ay, bx, by) : 0;
      const own = arc
        ? Math.abs(turn) * arc.radius
        : Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      swept += (ax * by - ay * bx) / 2;
      if (arc && turn !== 0) swept += segmentArea(arc.radius, turn);
      sweptCells += lines.cx[slot]! * lines.cy[end]! - lines.cy[slot]! * lines.cx[end]!;
      sum += own;
      slotLength[slot] = own;
      ax = bx;
      ay = by;
      if (slot === last) break;
    }
    area[e] = swept;
    cells[e] = sweptCells / 2;
    length[e] = sum;
  }
  return { area, cells, length, slotLength };
}

/** Where edges run, for whoever draws them. Half-edge 2e walks edge e from `from` to `to`, 2e + 1 back. */
export class EdgeShapes {
  constructor(
    private readonly plan: Plan,
    private readonly work: NodedLinework,
  ) {}

  /** Points walked through, the last left out. */
  points(h: number): Point[] {
    const { x, y } = this.work.lines;
    const { originX, originY } = this.work.grid;
    return this.inOrder(
      h,
      (v) => this.vertex(v),
      (slot) => ({ x: originX + x[slot]!, y: originY + y[slot]! }),
    );
  }

  /** The same in whole cells. */
  cellPoints(h: number): Point[] {
    const { cellX, cellY, lines } = this.work;
    return this.inOrder(
      h,
      (v) => ({ x: cellX[v]!, y: cellY[v]! }),
      (slot) => ({ x: lines.cx[slot]!, y: lines.cy[slot]! }),
    );
  }

  /** The same walk with its arcs. */
  steps(h: number): OutlineStep[] {
    const { originX, originY } = this.work.grid;
    const backwards = (h & 1) === 1;
    const steps: OutlineStep[] = [];
    this.walk(h >> 1, (_slot, ax, ay, bx, by, _length, turn, arc) => {
      const [x, y] = backwards ? [bx, by] : [ax, ay];
      steps.push({
        from: { x: originX + x, y: originY + y },
        arc: arc && this.inPlace(arc),
        turn: backwards ? -turn : turn,
      });
    });
    return backwards ? steps.reverse() : steps;
  }

  /** The pieces along one use of the edge, side by side, in order of walking. */
  pieces(h: number, use: number): EdgePiece[] {
    const { lines, grid, lastSlot } = this.work;
    const isRun = lastSlot[h >> 1]! >= 0;
    const backwards = (h & 1) === 1;
    const found: Array<{ part: Part; points: Point[] }> = [];
    const sign = (directionOf(use) === 1) === !backwards ? 1 : -1;
    this.walk(h >> 1, (walked, ax, ay, bx, by, own) => {
      const slot = isRun ? walked : slotOf(use);
      const side = lines.side[slot]!;
      const [m0, m1, m2] = this.moments(lines.source[slot]!, side, sign, own, ax, ay, bx, by);
      const end = { x: grid.originX + bx, y: grid.originY + by };
      const last = found[found.length - 1];
      if (last && last.part.side === side) {
        const { length, moments: m } = last.part;
        last.part = { side, length: length + own, moments: [m[0] + m0, m[1] + m1, m[2] + m2] };
        last.points.push(end);
      } else {
        const start = { x: grid.originX + ax, y: grid.originY + ay };
        found.push({ part: { side, length: own, moments: [m0, m1, m2] }, points: [start, end] });
      }
    });
    if (!backwards) return found;
    for (const piece of found) piece.points.reverse();
    return found.reverse();
  }

  /** One thing for each point walked through but the last: of a vertex where the edge begins, of slots on the way. */
  private inOrder<T>(h: number, ofVertex: (v: number) => T, ofSlot: (slot: number) => T): T[] {
    const { from, to, lastSlot, lines } = this.work;
    const e = h >> 1;
    const backwards = (h & 1) === 1;
    const last = lastSlot[e]!;
    const found = [ofVertex(backwards ? to[e]! : from[e]!)];
    if (last < 0) return found;
    const between: T[] = [];
    for (let slot = firstSlot(this.work, e); slot !== last; ) {
      slot = lines.to[slot]!;
      between.push(ofSlot(slot));
    }
    return found.concat(backwards ? between.reverse() : between);
  }

  /**
   * Calls with each piece: true ends about the grid's origin, true length, and the arc with the turn about it (0 when
   * straight).
   */
  private walk(
    e: number,
    visit: (
      slot: number,
      ax: number,
      ay: number,
      bx: number,
      by: number,
      length: number,
      turn: number,
      arc: Arc | null,
    ) => void,
  ): void {
    const { x, y, from, to, lastSlot, lines } = this.work;
    const isRun = lastSlot[e]! >= 0;
    const first = firstSlot(this.work, e);
    const last = isRun ? lastSlot[e]! : first;
    let ax = x[from[e]!]!;
    let ay = y[from[e]!]!;
    for (let slot = first; ; slot = lines.to[slot]!) {
      const end = lines.to[slot]!;
      const bx = slot === last ? x[to[e]!]! : lines.x[end]!;
      const by = slot === last ? y[to[e]!]! : lines.y[end]!;
      const arc = isRun ? arcAt(lines, slot) : arcOf(this.work, e);
      const turn = arc ? turnOnArc(arc, ax, ay, bx, by) : 0;
      const length = arc
        ? Math.abs(turn) * arc.radius
        : Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      visit(slot, ax, ay, bx, by, length, turn, arc);
      if (slot === last) return;
      ax = bx;
      ay = by;
    }
  }

  /** The integrals of `Part` over a stretch from (ax, ay) to (bx, by) of the given length. */
  private moments(
    source: number,
    side: number,
    sign: number,
    length: number,
    ax: number,
    ay: number,
    bx: number,
    by: number,
  ): [number, number, number] {
    const { arc, a, b } = this.line(source, side);
    const { originX, originY } = this.work.grid;
    if (arc) {
      const ox = arc.centre.x - originX;
      const oy = arc.centre.y - originY;
      const start = Math.atan2(ay - oy, ax - ox);
      const turn = turnOnArc({ ...arc, centre: { x: ox, y: oy } }, ax, ay, bx, by);
      const scale = turn === 0 ? 0 : (sign * length) / turn;
      return [
        sign * length,
        scale * (Math.sin(start + turn) - Math.sin(start)),
        scale * (Math.cos(start) - Math.cos(start + turn)),
      ];
    }
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const d2 = dx * dx + dy * dy;
    const middle =
      d2 === 0 ? 0.5 : (((ax + bx) / 2 + originX - a.x) * dx + ((ay + by) / 2 + originY - a.y) * dy) / d2;
    return [sign * length, sign * length * middle, 0];
  }

  private line(source: number, side: number): Side {
    const { kind, index } = this.work.lines.sources.named(source);
    if (kind === 'cut') {
      const { path } = this.plan.cuts[index]!;
      return { a: path[side]!, b: path[side + 1]!, arc: null };
    }
    return sideOf((kind === 'slab' ? this.plan.slabs : this.plan.voids)[index]!, side);
  }

  /** An arc about the grid's origin, where it really is. */
  private inPlace(arc: Arc): Arc {
    const { originX, originY } = this.work.grid;
    return { ...arc, centre: { x: arc.centre.x + originX, y: arc.centre.y + originY } };
  }

  private vertex(v: number): Point {
    const { grid, x, y } = this.work;
    return { x: grid.originX + x[v]!, y: grid.originY + y[v]! };
  }
}

/** The circle an edge runs on, where every line along it agrees; a straight line along it makes it straight. */
function arcOf({ lines, firstUse, uses, nextUse }: NodedLinework, e: number): Arc | null {
  let found: Arc | null = null;
  for (let u = firstUse[e]!; u >= 0; u = nextUse[u]!) {
    const arc = arcAt(lines, slotOf(uses[u]!));
    if (!arc) return null;
    found ??= arc;
  }
  return found;
}
