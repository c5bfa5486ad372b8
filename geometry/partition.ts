import { measureEdges } from './edge-measures.ts';
import { type Faces, findFaces, twin } from './faces.ts';
import { type NodedLinework, nodeLinework, type Use } from './linework.ts';
import { once } from './once.ts';
import { joinSteps, type OutlineStep } from './outline.ts';
import type { Cause, Partition, Plan, PlanProblem, Zone } from './plan.ts';
import type { Point } from './point.ts';
import { fail, ok, type Result } from './result.ts';
import type { Ring } from './ring.ts';
import { gatherStretches } from './stretches.ts';

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
    plan.weld,
  );
  return ok(new Partitioner(plan, work, findFaces(work)).run());
}

function findBadCoordinate({ slabs, cuts, voids }: Plan): PlanProblem | null {
  const bad = (kind: PlanProblem['kind'], index: number): PlanProblem => ({
    code: 'plan/not-finite',
    kind,
    index,
  });
  for (let i = 0; i < slabs.length; i++) if (!inRange(slabs[i]!)) return bad('slab', i);
  for (let i = 0; i < cuts.length; i++) if (!inRange(cuts[i]!.path)) return bad('cut', i);
  for (let i = 0; i < voids.length; i++) if (!inRange(voids[i]!)) return bad('void', i);
  return null;
}

function inRange(ring: Ring): boolean {
  for (const v of ring) if (!isInRange(v) || (v.via && !isInRange(v.via))) return false;
  return true;
}

/** False for what is not a number, too. */
const isInRange = ({ x, y }: Point): boolean => Math.abs(x) <= LARGEST && Math.abs(y) <= LARGEST;

/** One run of the algorithm; holds the tables that its steps share. */
class Partitioner {
  private readonly slabsOf: ReadonlyArray<readonly number[]>;
  private readonly voidsOf: ReadonlyArray<readonly number[]>;
  private readonly faceArea: Float64Array;
  private readonly faceCells: Float64Array;
  private readonly edges;
  /** For each slab, the zone of each face; faces outside are absent. */
  private readonly zoneOf: Array<Map<number, number>>;
  private readonly zoneFaces: Array<{ slab: number; faces: number[] }> = [];
  private readonly bordersByFace: ReadonlyArray<readonly number[]>;
  private voidCells: readonly Point[][] | null = null;
  /** For each half-edge, the last tracing that came along it. */
  private readonly seen: Int32Array;
  private tracings = 0;

  constructor(
    private readonly plan: Plan,
    private readonly work: NodedLinework,
    private readonly faces: Faces,
  ) {
    const slabsOf: Array<readonly number[]> = [];
    const voidsOf: Array<readonly number[]> = [];
    for (const w of faces.winding) {
      slabsOf.push(w.size === 0 ? NONE : wound(w, work, 'slab'));
      voidsOf.push(w.size === 0 ? NONE : wound(w, work, 'void'));
    }
    this.slabsOf = slabsOf;
    this.voidsOf = voidsOf;
    this.edges = measureEdges(plan, work);
    this.faceArea = new Float64Array(faces.count);
    this.faceCells = new Float64Array(faces.count);
    this.bordersByFace = faces.borders;
    this.seen = new Int32Array(faces.faceOf.length);
    for (let h = 0; h < faces.faceOf.length; h++) {
      const f = faces.faceOf[h]!;
      const { area, cells } = this.edges[h >> 1]!;
      this.faceArea[f]! += (h & 1) === 0 ? area : -area;
      this.faceCells[f]! += (h & 1) === 0 ? cells : -cells;
    }
    const facesOf: number[][] = plan.slabs.map(() => []);
    slabsOf.forEach((covering, f) => {
      for (const slab of covering) facesOf[slab]!.push(f);
    });
    this.zoneOf = facesOf.map((list, slab) => this.groupIntoZones(slab, list));
  }

  run(): Partition {
    const { plan, slabsOf, voidsOf, faceArea } = this;
    const zones = this.zoneFaces.map((_, z) => this.zone(z));
    const slabs = plan.slabs.map(() => ({ area: 0, voidArea: 0, netArea: 0 }));
    for (const z of zones) {
      const slab = slabs[z.slab]!;
      slab.area += z.faceArea;
      slab.voidArea += z.voidArea;
    }
    for (const slab of slabs) slab.netArea = slab.area - slab.voidArea;
    const voids = plan.voids.map(() => ({ insideArea: 0 }));
    voidsOf.forEach((covering, f) => {
      if (slabsOf[f]!.length > 0) for (const v of covering) voids[v]!.insideArea += faceArea[f]!;
    });
    return { plan, zones, slabs, voids, overlaps: this.overlaps(), cell: this.work.grid.cell };
  }

  /** Joins faces of the slab across every edge that is neither its outline nor one of its cuts. */
  private groupIntoZones(slab: number, ofSlab: readonly number[]): Map<number, number> {
    const { faces } = this;
    const parent = new Map<number, number>();
    const find = (f: number): number => {
      let r = f;
      while (parent.get(r) !== r) r = parent.get(r)!;
      parent.set(f, r);
      return r;
    };
    for (const f of ofSlab) parent.set(f, f);
    for (const f of ofSlab) {
      for (const h of this.bordersByFace[f]!) {
        const beyond = faces.faceOf[twin(h)]!;
        if (beyond === f || !parent.has(beyond)) continue;
        if (!this.cutAlong(h, slab)) parent.set(find(f), find(beyond));
      }
    }
    const zoneOfRoot = new Map<number, number>();
    const zoneOf = new Map<number, number>();
    for (const f of ofSlab) {
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

  /** The cut of the slab that runs along a half-edge's edge. */
  private cutAlong(h: number, slab: number): Use | null {
    for (const use of this.work.edges[h >> 1]!.uses) {
      const { kind, index } = this.work.sources[use.source]!;
      if (kind === 'cut' && this.plan.cuts[index]!.slab === slab) return use;
    }
    return null;
  }

  private drawnAlong(h: number, kind: 'slab' | 'void', index: number): Use | null {
    for (const use of this.work.edges[h >> 1]!.uses) {
      const source = this.work.sources[use.source]!;
      if (source.kind === kind && source.index === index) return use;
    }
    return null;
  }

  private zone(z: number): Zone {
    const { slab, faces } = this.zoneFaces[z]!;
    const zoneOf = this.zoneOf[slab]!;
    const isFace = (f: number) => zoneOf.get(f) === z;
    const isNet = (f: number) => zoneOf.get(f) === z && this.voidsOf[f]!.length === 0;
    let faceArea = 0;
    let netArea = 0;
    let netCells = 0;
    const byVoid = new Map<number, number>();
    for (const f of faces) {
      faceArea += this.faceArea[f]!;
      if (this.voidsOf[f]!.length === 0) {
        netArea += this.faceArea[f]!;
        netCells += this.faceCells[f]!;
      }
      for (const v of this.voidsOf[f]!) byVoid.set(v, (byVoid.get(v) ?? 0) + this.faceArea[f]!);
    }
    const netRings = this.trace(faces, isNet);
    const stretches = gatherStretches({
      rings: netRings,
      edges: this.edges,
      sides: this.plan.slabs[slab]!.length,
      causeOf: (h) => this.causeOf(h, z),
    });
    const faceRings = once(() => this.trace(faces, isFace));
    const netPoints = once(() => netRings.map((ring) => this.points(ring)));
    const facePoints = once(() => faceRings().map((ring) => this.points(ring)));
    const netOutlines = once(() => netRings.map((ring) => joinSteps(this.steps(ring))));
    const voids = [...byVoid].map(([v, area]) => ({ void: v, area }));
    return {
      slab,
      faceArea,
      voidArea: faceArea - netArea,
      netArea,
      voids: voids.sort((a, b) => a.void - b.void),
      stretches,
      boundary: stretches.reduce((sum, s) => sum + s.length, 0),
      get netRings() {
        return netPoints();
      },
      get faceRings() {
        return facePoints();
      },
      get netOutlines() {
        return netOutlines();
      },
      cells: {
        net: netCells,
        face: () => faceRings().map((ring) => this.cellPoints(ring)),
        voids: () => {
          this.voidCells ??= this.work.voidCells();
          return this.voidCells;
        },
      },
      bentArea: faces.reduce((sum, f) => sum + this.bentArea(this.bordersByFace[f]!), 0),
    };
  }

  /** Rings of half-edges with the wanted faces on their left and others on their right. */
  private trace(ofFaces: readonly number[], wanted: (face: number) => boolean): number[][] {
    const { faceOf, next } = this.faces;
    const { seen } = this;
    this.tracings++;
    const border = (h: number) => wanted(faceOf[h]!) && !wanted(faceOf[twin(h)]!);
    const rings: number[][] = [];
    for (const f of ofFaces) {
      if (!wanted(f)) continue;
      for (const start of this.bordersByFace[f]!) {
        if (seen[start] === this.tracings || !border(start)) continue;
        const ring: number[] = [];
        let h = start;
        do {
          seen[h] = this.tracings;
          ring.push(h);
          h = next[h]!;
          while (!border(h)) h = next[twin(h)]!;
        } while (h !== start && seen[h] !== this.tracings);
        rings.push(ring);
      }
    }
    return rings;
  }

  /** Why half-edge h bounds the net area of zone z: what lies on its right decides, before what is drawn along it. */
  private causeOf(h: number, z: number): { cause: Cause; use: Use } {
    const { slab } = this.zoneFaces[z]!;
    const beyond = this.faces.faceOf[twin(h)]!;
    const first = this.work.edges[h >> 1]!.uses[0]!;
    const otherZone = this.zoneOf[slab]!.get(beyond);
    if (otherZone === undefined) {
      const use = this.drawnAlong(h, 'slab', slab) ?? first;
      const side = Math.max(use.side, 0);
      const neighbour = this.slabsOf[beyond]!.find((s) => s !== slab);
      const cause: Cause =
        neighbour === undefined ? { kind: 'side', side } : { kind: 'slab', slab: neighbour, side };
      return { cause, use };
    }
    const covering = this.voidsOf[beyond]!;
    if (covering.length > 0) {
      const drawn = covering.find((v) => this.drawnAlong(h, 'void', v)) ?? covering[0]!;
      return { cause: { kind: 'void', void: drawn }, use: this.drawnAlong(h, 'void', drawn) ?? first };
    }
    const use = this.cutAlong(h, slab) ?? first;
    return { cause: { kind: 'cut', cut: this.work.sources[use.source]!.index, zone: otherZone }, use };
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

  /**
   * What lines were bent by, at least two cells, along every edge that begins or ends where one was. Edges under
   * voids count too, for a sliver between a void and a side that closed up lies along none other.
   */
  private bentArea(halfEdges: readonly number[]): number {
    const { bent, edges, grid } = this.work;
    return halfEdges.reduce((sum, h) => {
      const { from, to, loose } = edges[h >> 1]!;
      const off = Math.max(bent[from] ?? 0, bent[to] ?? 0, loose ? 2 * grid.cell : 0);
      return sum + off * this.edges[h >> 1]!.length;
    }, 0);
  }

  private points(ring: readonly number[]): Point[] {
    return ring.flatMap((h) => this.edges[h >> 1]!.points((h & 1) === 1));
  }

  private steps(ring: readonly number[]): OutlineStep[] {
    return ring.flatMap((h) => this.edges[h >> 1]!.steps((h & 1) === 1));
  }

  private cellPoints(ring: readonly number[]): Point[] {
    return ring.flatMap((h) => this.edges[h >> 1]!.cellPoints((h & 1) === 1));
  }
}

const NONE: readonly number[] = [];

/** The slabs or the voids among the sources that wind around a face, in order. */
function wound(
  w: ReadonlyMap<number, number>,
  work: NodedLinework,
  kind: 'slab' | 'void',
): readonly number[] {
  const found: number[] = [];
  for (const s of w.keys()) if (work.sources[s]!.kind === kind) found.push(work.sources[s]!.index);
  return found.sort((a, b) => a - b);
}
