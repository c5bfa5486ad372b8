import { segmentArea } from './arc.ts';
import { type Edge, type NodedLinework, turnOnArc, type Use } from './linework.ts';
import type { Plan } from './partition.ts';
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

/** An edge measured once, from `from` to `to`. */
export interface MeasuredEdge {
  /** Area swept about the grid's origin, true circle segments included. */
  readonly area: number;
  /** The same of the noded cells, in square cells. */
  readonly cells: number;
  readonly length: number;
  /** The pieces of the edge along a source, in order of walking; backwards from `to` to `from` where asked. */
  readonly pieces: (use: Use, backwards: boolean) => readonly EdgePiece[];
  /** Points walked through, the last left out. */
  readonly points: (backwards: boolean) => readonly Point[];
  readonly cellPoints: (backwards: boolean) => readonly Point[];
}

/** Measures every edge from true positions. */
export function measureEdges(plan: Plan, work: NodedLinework): MeasuredEdge[] {
  const measure = new Measure(plan, work);
  return work.edges.map((edge) => (edge.slots ? measure.run(edge, edge.slots) : measure.step(edge)));
}

class Measure {
  constructor(
    private readonly plan: Plan,
    private readonly work: NodedLinework,
  ) {}

  /** A straight piece or a chord with everything that runs along it. */
  step(edge: Edge): MeasuredEdge {
    const { x, y, cellX, cellY } = this.work;
    const { from, to } = edge;
    const [ax, ay, bx, by] = [x[from]!, y[from]!, x[to]!, y[to]!];
    let area = (ax * by - ay * bx) / 2;
    let length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
    const arc = arcOf(edge);
    if (arc) {
      const turn = turnOnArc(arc, ax, ay, bx, by);
      area += segmentArea(arc.radius, turn);
      length = Math.abs(turn) * arc.radius;
    }
    return {
      area,
      cells: (cellX[from]! * cellY[to]! - cellY[from]! * cellX[to]!) / 2,
      length,
      pieces: (use, backwards) => {
        const ends = [this.vertex(from), this.vertex(to)];
        const sign = (use.direction === 1) === !backwards ? 1 : -1;
        const moments = this.moments(use.source, use.side, sign, length, ax, ay, bx, by);
        return [{ part: { side: use.side, length, moments }, points: backwards ? ends.reverse() : ends }];
      },
      points: (backwards) => [this.vertex(backwards ? to : from)],
      cellPoints: (backwards) => [this.cell(backwards ? to : from)],
    };
  }

  /** A run of one source's pieces that meets nothing on the way. */
  run(edge: Edge, slots: readonly number[]): MeasuredEdge {
    const { x, y, cellX, cellY, lines } = this.work;
    const n = slots.length;
    const px: number[] = [x[edge.from]!];
    const py: number[] = [y[edge.from]!];
    let area = 0;
    let cells = 0;
    let length = 0;
    let cx = cellX[edge.from]!;
    let cy = cellY[edge.from]!;
    for (let i = 0; i < n; i++) {
      const end = lines.to[slots[i]!]!;
      const last = i === n - 1;
      const bx = last ? x[edge.to]! : lines.x[end]!;
      const by = last ? y[edge.to]! : lines.y[end]!;
      const dx = last ? cellX[edge.to]! : lines.cx[end]!;
      const dy = last ? cellY[edge.to]! : lines.cy[end]!;
      const ax = px[i]!;
      const ay = py[i]!;
      area += (ax * by - ay * bx) / 2;
      cells += (cx * dy - cy * dx) / 2;
      const arc = lines.arc[slots[i]!]!;
      if (arc) {
        const turn = turnOnArc(arc, ax, ay, bx, by);
        area += segmentArea(arc.radius, turn);
        length += Math.abs(turn) * arc.radius;
      } else length += Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
      px.push(bx);
      py.push(by);
      [cx, cy] = [dx, dy];
    }
    const { originX, originY } = this.work.grid;
    const point = (i: number): Point => ({ x: originX + px[i]!, y: originY + py[i]! });
    return {
      area,
      cells,
      length,
      pieces: (_, backwards) => this.piecesOfRun(slots, px, py, backwards),
      points: (backwards) => slots.map((_, i) => point(backwards ? n - i : i)),
      cellPoints: (backwards) =>
        backwards
          ? [this.cell(edge.to), ...slots.slice(1).reverse().map((s) => this.slotCell(s))]
          : [this.cell(edge.from), ...slots.slice(1).map((s) => this.slotCell(s))],
    };
  }

  private piecesOfRun(
    slots: readonly number[],
    px: readonly number[],
    py: readonly number[],
    backwards: boolean,
  ): EdgePiece[] {
    const { lines, grid } = this.work;
    const pieces: EdgePiece[] = [];
    const sign = backwards ? -1 : 1;
    for (let i = 0; i < slots.length; ) {
      const slot = slots[i]!;
      const side = lines.side[slot]!;
      const arc = lines.arc[slot]!;
      const points: Point[] = [{ x: grid.originX + px[i]!, y: grid.originY + py[i]! }];
      let length = 0;
      let [m0, m1, m2] = [0, 0, 0];
      do {
        const [ax, ay, bx, by] = [px[i]!, py[i]!, px[i + 1]!, py[i + 1]!];
        const own = arc
          ? Math.abs(turnOnArc(arc, ax, ay, bx, by)) * arc.radius
          : Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
        const m = this.moments(lines.source[slot]!, side, sign, own, ax, ay, bx, by);
        length += own;
        m0 += m[0];
        m1 += m[1];
        m2 += m[2];
        points.push({ x: grid.originX + bx, y: grid.originY + by });
        i++;
      } while (i < slots.length && lines.side[slots[i]!] === side);
      if (backwards) points.reverse();
      pieces.push({ part: { side, length, moments: [m0, m1, m2] }, points });
    }
    return backwards ? pieces.reverse() : pieces;
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
      d2 === 0
        ? 0.5
        : (((ax + bx) / 2 + originX - a.x) * dx + ((ay + by) / 2 + originY - a.y) * dy) / d2;
    return [sign * length, sign * length * middle, 0];
  }

  private line(source: number, side: number): Side {
    const { kind, index } = this.work.sources[source]!;
    if (kind === 'cut') {
      const { path } = this.plan.cuts[index]!;
      return { a: path[side]!, b: path[side + 1]!, arc: null };
    }
    return sideOf((kind === 'slab' ? this.plan.slabs : this.plan.voids)[index]!, side);
  }

  private vertex(v: number): Point {
    const { grid, x, y } = this.work;
    return { x: grid.originX + x[v]!, y: grid.originY + y[v]! };
  }

  private cell(v: number): Point {
    return { x: this.work.cellX[v]!, y: this.work.cellY[v]! };
  }

  private slotCell(slot: number): Point {
    return { x: this.work.lines.cx[slot]!, y: this.work.lines.cy[slot]! };
  }
}

/** The circle an edge runs on, where every line along it agrees; a straight line along it makes it straight. */
function arcOf(edge: Edge): Use['arc'] {
  let arc: Use['arc'] = null;
  for (const use of edge.uses) {
    if (!use.arc) return null;
    arc ??= use.arc;
  }
  return arc;
}
