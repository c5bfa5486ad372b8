import { type Arc, segmentArea } from './arc.ts';
import { type Edge, type NodedLinework, turnOnArc, type Use } from './linework.ts';
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

/** An edge measured once, from `from` to `to`. */
export interface MeasuredEdge {
  /** Area swept about the grid's origin, true circle segments included. */
  readonly area: number;
  /** The same of the noded cells, in square cells. */
  readonly cells: number;
  readonly length: number;
  /** Which sides of a source the edge runs along, and how far on each; none of it depends on the way it is walked. */
  sides(use: Use, visit: (side: number, length: number) => void): void;
  /** The pieces of the edge along a source, in order of walking; backwards from `to` to `from` where asked. */
  pieces(use: Use, backwards: boolean): readonly EdgePiece[];
  /** Points walked through, the last left out. */
  points(backwards: boolean): readonly Point[];
  cellPoints(backwards: boolean): readonly Point[];
  /** The same walk with its arcs. */
  steps(backwards: boolean): readonly OutlineStep[];
}

/** Measures every edge from true positions. */
export function measureEdges(plan: Plan, work: NodedLinework): MeasuredEdge[] {
  const places = new Places(plan, work);
  return work.edges.map((edge) => (edge.slots ? new Run(places, edge, edge.slots) : new Step(places, edge)));
}

/** A straight piece or a chord with everything that runs along it. */
class Step implements MeasuredEdge {
  readonly area: number;
  readonly cells: number;
  readonly length: number;

  constructor(
    private readonly places: Places,
    private readonly edge: Edge,
  ) {
    const { x, y, cellX, cellY } = places.work;
    const { from, to } = edge;
    const [ax, ay, bx, by] = [x[from]!, y[from]!, x[to]!, y[to]!];
    const arc = arcOf(edge);
    const turn = arc ? turnOnArc(arc, ax, ay, bx, by) : 0;
    this.area = (ax * by - ay * bx) / 2 + (arc ? segmentArea(arc.radius, turn) : 0);
    this.length = arc ? Math.abs(turn) * arc.radius : Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
    this.cells = (cellX[from]! * cellY[to]! - cellY[from]! * cellX[to]!) / 2;
  }

  sides(use: Use, visit: (side: number, length: number) => void): void {
    visit(use.side, this.length);
  }

  pieces(use: Use, backwards: boolean): EdgePiece[] {
    const { places, length } = this;
    const { from, to } = this.edge;
    const { x, y } = places.work;
    const ends = [places.vertex(from), places.vertex(to)];
    const sign = (use.direction === 1) === !backwards ? 1 : -1;
    const moments = places.moments(use.source, use.side, sign, length, x[from]!, y[from]!, x[to]!, y[to]!);
    return [{ part: { side: use.side, length, moments }, points: backwards ? ends.reverse() : ends }];
  }

  points(backwards: boolean): Point[] {
    return [this.places.vertex(backwards ? this.edge.to : this.edge.from)];
  }

  cellPoints(backwards: boolean): Point[] {
    return [this.places.cell(backwards ? this.edge.to : this.edge.from)];
  }

  steps(backwards: boolean): OutlineStep[] {
    const { x, y } = this.places.work;
    const { from, to } = this.edge;
    const [a, b] = backwards ? [to, from] : [from, to];
    const arc = arcOf(this.edge);
    const turn = arc ? turnOnArc(arc, x[a]!, y[a]!, x[b]!, y[b]!) : 0;
    return [{ from: this.places.vertex(a), arc: arc && this.places.inPlace(arc), turn }];
  }
}

/** A run of one source's pieces that meets nothing on the way. */
class Run implements MeasuredEdge {
  readonly area: number;
  readonly cells: number;
  readonly length: number;

  constructor(
    private readonly places: Places,
    private readonly edge: Edge,
    private readonly slots: readonly number[],
  ) {
    const { lines } = places.work;
    let area = 0;
    let cells = 0;
    let length = 0;
    this.walk((slot, ax, ay, bx, by, own, turn) => {
      const end = lines.to[slot]!;
      area += (ax * by - ay * bx) / 2;
      if (turn !== 0) area += segmentArea(lines.arc[slot]!.radius, turn);
      cells += lines.cx[slot]! * lines.cy[end]! - lines.cy[slot]! * lines.cx[end]!;
      length += own;
    });
    this.area = area;
    this.cells = cells / 2;
    this.length = length;
  }

  sides(_: Use, visit: (side: number, length: number) => void): void {
    const { side } = this.places.work.lines;
    this.walk((slot, _ax, _ay, _bx, _by, own) => visit(side[slot]!, own));
  }

  pieces(_: Use, backwards: boolean): EdgePiece[] {
    const { lines, grid } = this.places.work;
    const found: Array<{ part: Part; points: Point[] }> = [];
    const sign = backwards ? -1 : 1;
    this.walk((slot, ax, ay, bx, by, own) => {
      const side = lines.side[slot]!;
      const [m0, m1, m2] = this.places.moments(lines.source[slot]!, side, sign, own, ax, ay, bx, by);
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

  points(backwards: boolean): Point[] {
    const { lines, grid } = this.places.work;
    const points = this.slots.map((s) => ({ x: grid.originX + lines.x[s]!, y: grid.originY + lines.y[s]! }));
    points[0] = this.places.vertex(this.edge.from);
    if (!backwards) return points;
    points.push(this.places.vertex(this.edge.to));
    points.reverse().pop();
    return points;
  }

  cellPoints(backwards: boolean): Point[] {
    const points = this.slots.map((s) => this.places.slotCell(s));
    if (!backwards) return points;
    points.push(this.places.cell(this.edge.to));
    points.reverse().pop();
    return points;
  }

  steps(backwards: boolean): OutlineStep[] {
    const { lines, grid } = this.places.work;
    const steps: OutlineStep[] = [];
    this.walk((slot, ax, ay, bx, by, _length, turn) => {
      const arc = lines.arc[slot] ?? null;
      const [x, y] = backwards ? [bx, by] : [ax, ay];
      steps.push({
        from: { x: grid.originX + x, y: grid.originY + y },
        arc: arc && this.places.inPlace(arc),
        turn: backwards ? -turn : turn,
      });
    });
    return backwards ? steps.reverse() : steps;
  }

  /** Calls with each piece: true ends about the grid's origin, true length, and turn about its arc (0 when straight). */
  private walk(
    visit: (
      slot: number,
      ax: number,
      ay: number,
      bx: number,
      by: number,
      length: number,
      turn: number,
    ) => void,
  ): void {
    const { x, y, lines } = this.places.work;
    const { slots, edge } = this;
    let ax = x[edge.from]!;
    let ay = y[edge.from]!;
    for (let i = 0; i < slots.length; i++) {
      const slot = slots[i]!;
      const end = lines.to[slot]!;
      const last = i === slots.length - 1;
      const bx = last ? x[edge.to]! : lines.x[end]!;
      const by = last ? y[edge.to]! : lines.y[end]!;
      const arc = lines.arc[slot]!;
      const turn = arc ? turnOnArc(arc, ax, ay, bx, by) : 0;
      const length = arc
        ? Math.abs(turn) * arc.radius
        : Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      visit(slot, ax, ay, bx, by, length, turn);
      ax = bx;
      ay = by;
    }
  }
}

/** Where things are: vertices, cells, and the sides that pieces belong to. */
class Places {
  constructor(
    private readonly plan: Plan,
    readonly work: NodedLinework,
  ) {}

  /** The integrals of `Part` over a stretch from (ax, ay) to (bx, by) of the given length. */
  moments(
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
    const { kind, index } = this.work.sources[source]!;
    if (kind === 'cut') {
      const { path } = this.plan.cuts[index]!;
      return { a: path[side]!, b: path[side + 1]!, arc: null };
    }
    return sideOf((kind === 'slab' ? this.plan.slabs : this.plan.voids)[index]!, side);
  }

  /** An arc about the grid's origin, where it really is. */
  inPlace(arc: Arc): Arc {
    const { originX, originY } = this.work.grid;
    return { ...arc, centre: { x: arc.centre.x + originX, y: arc.centre.y + originY } };
  }

  vertex(v: number): Point {
    const { grid, x, y } = this.work;
    return { x: grid.originX + x[v]!, y: grid.originY + y[v]! };
  }

  cell(v: number): Point {
    return { x: this.work.cellX[v]!, y: this.work.cellY[v]! };
  }

  slotCell(slot: number): Point {
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
