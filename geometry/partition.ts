import { segmentArea } from './arc.ts';
import { type Faces, findFaces, twin } from './faces.ts';
import { type Edge, type NodedLinework, nodeLinework, turnOnArc, type Use } from './linework.ts';
import { isFinitePoint, type Point } from './point.ts';
import { fail, ok, type Result } from './result.ts';
import type { Ring } from './ring.ts';

/** Outlines, the lines that cut them, and what is left out. Indices into these lists name things in the answer. */
export interface Plan {
  readonly slabs: readonly Ring[];
  /** Open paths; each splits only the slab it belongs to. */
  readonly cuts: ReadonlyArray<{ readonly slab: number; readonly path: readonly Point[] }>;
  readonly voids: readonly Ring[];
}

/** Why a stretch of a zone's boundary is there. */
export type Cause =
  | { readonly kind: 'side'; readonly side: number }
  | { readonly kind: 'slab'; readonly slab: number; readonly side: number }
  | { readonly kind: 'cut'; readonly cut: number; readonly zone: number }
  | { readonly kind: 'void'; readonly void: number };

/** All of a zone's boundary that has one cause. */
export interface Stretch {
  readonly cause: Cause;
  /** True length, arcs included. */
  readonly length: number;
  /** Runs of points, in order, with the zone on the left. For drawing. */
  readonly runs: readonly Point[][];
}

/** A face of a slab between its outline and its cuts. */
export interface Zone {
  readonly slab: number;
  /** Area of the whole face, voids included. */
  readonly faceArea: number;
  /** Area of the face that some void covers, counted once where voids overlap. */
  readonly voidArea: number;
  /** faceArea − voidArea. */
  readonly netArea: number;
  /** How much of the face each void covers; overlapping voids count in both. */
  readonly voids: ReadonlyArray<{ readonly void: number; readonly area: number }>;
  readonly stretches: readonly Stretch[];
  /** Length of all stretches. */
  readonly boundary: number;
  /** Outlines of the net area: outer ones counter-clockwise, holes clockwise. */
  readonly netRings: readonly Point[][];
  /** Outlines of the face, voids ignored. */
  readonly faceRings: readonly Point[][];
  /** The same outlines in whole cells: what a second engine is given to check the areas. */
  readonly cells: { readonly net: number; readonly face: readonly Point[][] };
}

/** What a plan comes to. */
export interface Partition {
  readonly zones: readonly Zone[];
  /** For each slab: area inside its outline, of that under voids, and what is left. */
  readonly slabs: ReadonlyArray<{
    readonly area: number;
    readonly voidArea: number;
    readonly netArea: number;
  }>;
  /** For each void, how much of it lies on slabs. */
  readonly voids: ReadonlyArray<{ readonly insideArea: number }>;
  /** Pairs of slabs that cover the same ground, with the area covered twice. */
  readonly overlaps: ReadonlyArray<{ readonly a: number; readonly b: number; readonly area: number }>;
  /** Edge of one grid cell: no line was moved by more than about this much. */
  readonly cell: number;
  /** The void outlines in whole cells, as the second engine needs them. */
  readonly voidCells: readonly Point[][];
}

/** A coordinate that is not a number, or beyond 1e9 units. */
export interface PlanProblem {
  readonly code: 'plan/not-finite';
  readonly kind: 'slab' | 'cut' | 'void';
  readonly index: number;
}

const LARGEST = 1e9;

/**
 * Splits slabs into zones along cuts, takes voids out, and attributes every stretch of every zone's boundary
 * to exactly one cause.
 *
 * Linework is noded by snap rounding on a grid of 2⁻¹⁴ units, which decides what touches what; areas (Green's
 * theorem, with true circle segments) and lengths are then taken from true positions. Each edge serves both of
 * its faces with the same numbers, so zone areas and void areas add up to the slab to rounding (1e-12 relative),
 * and what two zones share is the same length for both.
 *
 * @returns a problem only when a coordinate is not finite or beyond 1e9.
 */
export function partition(plan: Plan): Result<Partition, PlanProblem> {
  const problem = findBadCoordinate(plan);
  if (problem) return fail(problem);
  const work = nodeLinework(
    plan.slabs,
    plan.cuts.map((c) => c.path),
    plan.voids,
  );
  return ok(new Partitioner(plan, work, findFaces(work)).run());
}

function findBadCoordinate(plan: Plan): PlanProblem | null {
  const good = (p: Point) => isFinitePoint(p) && Math.abs(p.x) <= LARGEST && Math.abs(p.y) <= LARGEST;
  const goodRing = (ring: Ring) => ring.every((v) => good(v) && (!v.via || good(v.via)));
  const lists = [
    ['slab', plan.slabs.map(goodRing)],
    ['cut', plan.cuts.map((c) => c.path.every(good))],
    ['void', plan.voids.map(goodRing)],
  ] as const;
  for (const [kind, fine] of lists) {
    const index = fine.indexOf(false);
    if (index >= 0) return { code: 'plan/not-finite', kind, index };
  }
  return null;
}

/** One run of the algorithm; holds the tables that its steps share. */
class Partitioner {
  private readonly slabsOf: number[][];
  private readonly voidsOf: number[][];
  private readonly faceArea: Float64Array;
  private readonly faceCells: Float64Array;
  /** For each slab, the zone of each face; faces outside are absent. */
  private readonly zoneOf: Array<Map<number, number>>;
  private readonly zoneFaces: Array<{ slab: number; faces: number[] }> = [];

  constructor(
    private readonly plan: Plan,
    private readonly work: NodedLinework,
    private readonly faces: Faces,
  ) {
    const indices = (kind: 'slab' | 'void') =>
      faces.winding.map((w) =>
        [...w.keys()]
          .map((s) => work.sources[s]!)
          .filter((source) => source.kind === kind)
          .map((source) => source.index)
          .sort((a, b) => a - b),
      );
    this.slabsOf = indices('slab');
    this.voidsOf = indices('void');
    this.faceArea = new Float64Array(faces.count);
    this.faceCells = new Float64Array(faces.count);
    this.measureFaces();
    this.zoneOf = plan.slabs.map((_, slab) => this.groupIntoZones(slab));
  }

  run(): Partition {
    const { plan, slabsOf, voidsOf, faceArea } = this;
    const sum = (wanted: (face: number) => boolean) => {
      let area = 0;
      for (let f = 1; f < faceArea.length; f++) if (wanted(f)) area += faceArea[f]!;
      return area;
    };
    const zones = this.zoneFaces.map((_, z) => this.zone(z));
    const slabs = plan.slabs.map((_, s) => {
      const mine = zones.filter((z) => z.slab === s);
      const area = mine.reduce((a, z) => a + z.faceArea, 0);
      const voidArea = mine.reduce((a, z) => a + z.voidArea, 0);
      return { area, voidArea, netArea: area - voidArea };
    });
    const voids = plan.voids.map((_, v) => ({
      insideArea: sum((f) => voidsOf[f]!.includes(v) && slabsOf[f]!.length > 0),
    }));
    const { grid } = this.work;
    return {
      zones,
      slabs,
      voids,
      overlaps: this.overlaps(),
      cell: grid.cell,
      voidCells: this.voidOutlines(),
    };
  }

  private measureFaces(): void {
    const { work, faces } = this;
    for (let h = 0; h < faces.faceOf.length; h++) {
      const a = faces.origin[h]!;
      const b = faces.origin[twin(h)]!;
      const f = faces.faceOf[h]!;
      this.faceArea[f]! += (work.x[a]! * work.y[b]! - work.y[a]! * work.x[b]!) / 2;
      const arc = arcOf(work.edges[h >> 1]!);
      if (arc) {
        const turn = turnOnArc(arc, work.x[a]!, work.y[a]!, work.x[b]!, work.y[b]!);
        this.faceArea[f]! += segmentArea(arc.radius, turn);
      }
      this.faceCells[f]! += (work.cellX[a]! * work.cellY[b]! - work.cellY[a]! * work.cellX[b]!) / 2;
    }
  }

  /** Joins faces of the slab across every edge that is neither its outline nor one of its cuts. */
  private groupIntoZones(slab: number): Map<number, number> {
    const { faces, work } = this;
    const parent = new Map<number, number>();
    const find = (f: number): number => {
      let r = f;
      while (parent.get(r) !== r) r = parent.get(r)!;
      parent.set(f, r);
      return r;
    };
    for (let f = 1; f < faces.count; f++) if (this.slabsOf[f]!.includes(slab)) parent.set(f, f);
    work.edges.forEach((edge, e) => {
      const left = faces.faceOf[2 * e]!;
      const right = faces.faceOf[2 * e + 1]!;
      if (left === right || !parent.has(left) || !parent.has(right)) return;
      if (!edge.uses.some((use) => this.separates(use, slab))) parent.set(find(left), find(right));
    });
    const zoneOfRoot = new Map<number, number>();
    const zoneOf = new Map<number, number>();
    for (const f of parent.keys()) {
      const root = find(f);
      let z = zoneOfRoot.get(root);
      if (z === undefined) {
        z = this.zoneFaces.push({ slab, faces: [] }) - 1;
        zoneOfRoot.set(root, z);
      }
      zoneOf.set(f, z);
      this.zoneFaces[z]!.faces.push(f);
    }
    return zoneOf;
  }

  private separates(use: Use, slab: number): boolean {
    const source = this.work.sources[use.source]!;
    return source.kind === 'cut' && this.plan.cuts[source.index]!.slab === slab;
  }

  private zone(z: number): Zone {
    const { slab, faces } = this.zoneFaces[z]!;
    const zoneOf = this.zoneOf[slab]!;
    const isFace = (f: number) => zoneOf.get(f) === z;
    const isNet = (f: number) => isFace(f) && this.voidsOf[f]!.length === 0;
    let faceArea = 0;
    let netArea = 0;
    let netCells = 0;
    const byVoid = new Map<number, number>();
    for (const f of faces) {
      faceArea += this.faceArea[f]!;
      if (isNet(f)) {
        netArea += this.faceArea[f]!;
        netCells += this.faceCells[f]!;
      }
      for (const v of this.voidsOf[f]!) byVoid.set(v, (byVoid.get(v) ?? 0) + this.faceArea[f]!);
    }
    const netRings = this.trace(faces, isNet);
    const faceRings = this.trace(faces, isFace);
    const stretches = this.stretches(z, netRings);
    return {
      slab,
      faceArea,
      voidArea: faceArea - netArea,
      netArea,
      voids: [...byVoid].map(([v, area]) => ({ void: v, area })).sort((a, b) => a.void - b.void),
      stretches,
      boundary: stretches.reduce((sum, s) => sum + s.length, 0),
      netRings: netRings.map((ring) => this.points(ring)),
      faceRings: faceRings.map((ring) => this.points(ring)),
      cells: { net: netCells, face: faceRings.map((ring) => this.cellPoints(ring)) },
    };
  }

  /** Rings of half-edges with the wanted faces on their left and others on their right. */
  private trace(ofFaces: readonly number[], wanted: (face: number) => boolean): number[][] {
    const { faceOf, next } = this.faces;
    const mine = new Set(ofFaces);
    const border = (h: number) => wanted(faceOf[h]!) && !wanted(faceOf[twin(h)]!);
    const seen = new Set<number>();
    const rings: number[][] = [];
    for (const start of this.halfEdgesOf(mine)) {
      if (seen.has(start) || !border(start)) continue;
      const ring: number[] = [];
      let h = start;
      do {
        seen.add(h);
        ring.push(h);
        h = next[h]!;
        while (!border(h)) h = next[twin(h)]!;
      } while (h !== start && !seen.has(h));
      rings.push(ring);
    }
    return rings;
  }

  private bordersByFace: number[][] | null = null;

  private *halfEdgesOf(faces: ReadonlySet<number>): Iterable<number> {
    if (!this.bordersByFace) {
      const lists: number[][] = Array.from({ length: this.faces.count }, () => []);
      this.faces.faceOf.forEach((f, h) => {
        lists[f]!.push(h);
      });
      this.bordersByFace = lists;
    }
    for (const f of faces) yield* this.bordersByFace[f]!;
  }

  private stretches(z: number, rings: readonly number[][]): Stretch[] {
    const byCause = new Map<string, { cause: Cause; length: number; runs: Point[][] }>();
    for (const ring of rings) {
      let previous = '';
      for (const h of ring) {
        const cause = this.causeOf(h, z);
        const key = JSON.stringify(cause);
        let stretch = byCause.get(key);
        if (!stretch) {
          stretch = { cause, length: 0, runs: [] };
          byCause.set(key, stretch);
        }
        stretch.length += this.lengthOf(h);
        if (key !== previous) stretch.runs.push([this.pointAt(this.faces.origin[h]!)]);
        stretch.runs[stretch.runs.length - 1]!.push(this.pointAt(this.faces.origin[twin(h)]!));
        previous = key;
      }
    }
    const order = { side: 0, slab: 1, cut: 2, void: 3 };
    const rank = ({ cause: c }: Stretch) =>
      order[c.kind] * 1e9 + (c.kind === 'cut' ? c.cut : c.kind === 'void' ? c.void : c.side);
    return [...byCause.values()].sort((a, b) => rank(a) - rank(b));
  }

  /** Why half-edge h bounds the net area of zone z: what lies on its right decides, before what is drawn along it. */
  private causeOf(h: number, z: number): Cause {
    const { slab } = this.zoneFaces[z]!;
    const beyond = this.faces.faceOf[twin(h)]!;
    const { uses } = this.work.edges[h >> 1]!;
    const along = (kind: 'slab' | 'cut' | 'void', index?: number) =>
      uses.find((use) => {
        const source = this.work.sources[use.source]!;
        return source.kind === kind && (index === undefined || source.index === index);
      });
    const otherZone = this.zoneOf[slab]!.get(beyond);
    if (otherZone === undefined) {
      const side = along('slab', slab)?.side ?? 0;
      const neighbour = this.slabsOf[beyond]!.find((s) => s !== slab);
      return neighbour === undefined ? { kind: 'side', side } : { kind: 'slab', slab: neighbour, side };
    }
    const covering = this.voidsOf[beyond]!;
    if (covering.length > 0)
      return { kind: 'void', void: covering.find((v) => along('void', v)) ?? covering[0]! };
    const use = uses.find((u) => this.separates(u, slab));
    return { kind: 'cut', cut: use ? this.work.sources[use.source]!.index : 0, zone: otherZone };
  }

  private lengthOf(h: number): number {
    const { x, y, edges } = this.work;
    const a = this.faces.origin[h]!;
    const b = this.faces.origin[twin(h)]!;
    const arc = arcOf(edges[h >> 1]!);
    if (arc) return Math.abs(turnOnArc(arc, x[a]!, y[a]!, x[b]!, y[b]!)) * arc.radius;
    return Math.hypot(x[b]! - x[a]!, y[b]! - y[a]!);
  }

  /** Each void's outline as it runs on the grid, before anything is taken from anything. */
  private voidOutlines(): Point[][] {
    const { paths, sources, cellX, cellY } = this.work;
    const outlines: Point[][] = this.plan.voids.map(() => []);
    for (const { source, vertices } of paths) {
      const { kind, index } = sources[source]!;
      if (kind !== 'void') continue;
      for (const v of vertices.slice(0, -1)) outlines[index]!.push({ x: cellX[v]!, y: cellY[v]! });
    }
    return outlines;
  }

  private overlaps(): Partition['overlaps'] {
    const byPair = new Map<string, { a: number; b: number; area: number }>();
    this.slabsOf.forEach((slabs, f) => {
      for (let i = 0; i < slabs.length; i++) {
        for (let j = i + 1; j < slabs.length; j++) {
          const key = `${slabs[i]} ${slabs[j]}`;
          const pair = byPair.get(key) ?? { a: slabs[i]!, b: slabs[j]!, area: 0 };
          pair.area += this.faceArea[f]!;
          byPair.set(key, pair);
        }
      }
    });
    return [...byPair.values()];
  }

  private pointAt(v: number): Point {
    const { grid, x, y } = this.work;
    return { x: grid.originX + x[v]!, y: grid.originY + y[v]! };
  }

  private points(ring: readonly number[]): Point[] {
    return ring.map((h) => this.pointAt(this.faces.origin[h]!));
  }

  private cellPoints(ring: readonly number[]): Point[] {
    const { cellX, cellY } = this.work;
    return ring.map((h) => ({ x: cellX[this.faces.origin[h]!]!, y: cellY[this.faces.origin[h]!]! }));
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
