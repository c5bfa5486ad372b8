import { scratch } from './columns.ts';
import { type EdgeMeasures, EdgeShapes, measureEdges } from './edge-measures.ts';
import { type Faces, findFaces } from './faces.ts';
import { type NodedLinework, nodeLinework, slotOf } from './linework.ts';
import { once } from './once.ts';
import { joinSteps } from './outline.ts';
import type { Partition, Plan, PlanProblem, Zone } from './plan.ts';
import type { Point } from './point.ts';
import { fail, ok, type Result } from './result.ts';
import type { Ring } from './ring.ts';
import { gatherStretches, rank } from './stretches.ts';
import { twin } from './winding.ts';

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
  const faces = findFaces(work);
  const mark = scratch.mark();
  const made = new Partitioner(new Cover(plan, work, faces)).run();
  scratch.release(mark);
  return ok(made);
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

/** Which slabs and voids lie on each face, and the zones that a slab's faces make: kept for whoever asks where they run. */
class Cover {
  /** For each face the slabs and the voids that cover it, in order. */
  readonly slabsOf: ReadonlyArray<readonly number[]>;
  readonly voidsOf: ReadonlyArray<readonly number[]>;
  readonly zones: Array<{ readonly slab: number; readonly faces: number[] }> = [];
  /** For each face, the zones of the slabs in `slabsOf`. */
  private readonly zonesOf: ReadonlyArray<readonly number[]>;

  constructor(
    readonly plan: Plan,
    readonly work: NodedLinework,
    readonly faces: Faces,
  ) {
    this.slabsOf = faces.winding.map((w) => covering(w, work, 'slab'));
    this.voidsOf = faces.winding.map((w) => covering(w, work, 'void'));
    this.zonesOf = this.groupIntoZones();
  }

  /** The zone of a slab that a face is of; −1 where it is outside the slab. */
  zoneAt(slab: number, face: number): number {
    const slabs = this.slabsOf[face]!;
    for (let k = 0; k < slabs.length; k++) if (slabs[k] === slab) return this.zonesOf[face]![k]!;
    return -1;
  }

  /** Joins faces of each slab across every edge that is neither its outline nor one of its cuts. */
  private groupIntoZones(): number[][] {
    const { faces, slabsOf } = this;
    const facesOf: number[][] = this.plan.slabs.map(() => []);
    for (let f = 0; f < faces.count; f++) for (const slab of slabsOf[f]!) facesOf[slab]!.push(f);
    const zonesOf: number[][] = slabsOf.map((slabs) => (slabs.length === 0 ? NONE : []));
    const mark = scratch.mark();
    // Faces of one slab, linked to the one that stands for them all; −1 outside the slab at hand.
    const parent = scratch.int32(faces.count).fill(-1);
    const zoneOfRoot = scratch.int32(faces.count);
    const find = (f: number): number => {
      let r = f;
      while (parent[r] !== r) r = parent[r]!;
      parent[f] = r;
      return r;
    };
    facesOf.forEach((own, slab) => {
      for (const f of own) {
        parent[f] = f;
        zoneOfRoot[f] = -1;
      }
      for (const f of own) {
        for (let b = faces.firstBorder[f]!; b < faces.firstBorder[f + 1]!; b++) {
          const h = faces.borders[b]!;
          const beyond = faces.faceOf[twin(h)]!;
          if (beyond === f || parent[beyond]! < 0 || this.cutAlong(h, slab) >= 0) continue;
          parent[find(f)] = find(beyond);
        }
      }
      for (const f of own) {
        const root = find(f);
        if (zoneOfRoot[root]! < 0) zoneOfRoot[root] = this.zones.push({ slab, faces: [] }) - 1;
        const z = zoneOfRoot[root]!;
        zonesOf[f]!.push(z);
        this.zones[z]!.faces.push(f);
      }
      for (const f of own) parent[f] = -1;
    });
    scratch.release(mark);
    return zonesOf;
  }

  /** The use of a half-edge's edge by a cut of the slab; −1 when there is none. */
  private cutAlong(h: number, slab: number): number {
    const { work, plan } = this;
    for (let u = work.firstUse[h >> 1]!; u >= 0; u = work.nextUse[u]!) {
      const { kind, index } = work.sources[work.lines.source[slotOf(work.uses[u]!)]!]!;
      if (kind === 'cut' && plan.cuts[index]!.slab === slab) return work.uses[u]!;
    }
    return -1;
  }

  /** The use of a half-edge's edge by a slab's or a void's outline; −1 when there is none. */
  private drawnAlong(h: number, wanted: 'slab' | 'void', which: number): number {
    const { work } = this;
    for (let u = work.firstUse[h >> 1]!; u >= 0; u = work.nextUse[u]!) {
      const { kind, index } = work.sources[work.lines.source[slotOf(work.uses[u]!)]!]!;
      if (kind === wanted && index === which) return work.uses[u]!;
    }
    return -1;
  }

  /**
   * Why each half-edge of the rings bounds the net area of zone z: what lies on its right decides, before what is drawn
   * along it.
   */
  attribute(rings: readonly number[][], z: number, ranks: Float64Array, uses: Int32Array): void {
    const { work, faces } = this;
    const { slab } = this.zones[z]!;
    let n = 0;
    for (const ring of rings) {
      for (const h of ring) {
        const beyond = faces.faceOf[twin(h)]!;
        const otherZone = this.zoneAt(slab, beyond);
        const over = this.voidsOf[beyond]!;
        let use: number;
        if (otherZone < 0) {
          use = this.drawnAlong(h, 'slab', slab);
          const slabs = this.slabsOf[beyond]!;
          ranks[n] = slabs.length === 0 ? rank.side : rank.slab(slabs[0]!);
        } else if (over.length > 0) {
          const drawn = over.find((v) => this.drawnAlong(h, 'void', v) >= 0) ?? over[0]!;
          use = this.drawnAlong(h, 'void', drawn);
          ranks[n] = rank.void(drawn);
        } else {
          use = this.cutAlong(h, slab);
          const along = use >= 0 ? use : work.uses[work.firstUse[h >> 1]!]!;
          ranks[n] = rank.cut(work.sources[work.lines.source[slotOf(along)]!]!.index, otherZone);
        }
        uses[n++] = use >= 0 ? use : work.uses[work.firstUse[h >> 1]!]!;
      }
    }
  }
}

const NONE: number[] = [];

/** The slabs or the voids among the sources that wind around a face, in order. */
function covering(
  winding: readonly number[],
  { sources }: NodedLinework,
  kind: 'slab' | 'void',
): readonly number[] {
  let found: number[] = NONE;
  for (let i = 0; i < winding.length; i += 2) {
    const source = sources[winding[i]!]!;
    if (source.kind !== kind) continue;
    if (found === NONE) found = [source.index];
    else found.push(source.index);
  }
  return found;
}

/** One run of the algorithm; holds what is measured by its steps. */
class Partitioner {
  private readonly shapes: EdgeShapes;
  private readonly edges: EdgeMeasures;
  private readonly faceArea: Float64Array;
  private readonly faceCells: Float64Array;
  /** How much of the zone at hand each void covers. */
  private readonly coveredBy: Float64Array;
  /** The last zone that each void was seen on. */
  private readonly lastSeen: Int32Array;
  private readonly voidCells;

  constructor(private readonly cover: Cover) {
    const { plan, work, faces } = cover;
    this.shapes = new EdgeShapes(plan, work);
    this.voidCells = once(work.voidCells);
    this.edges = measureEdges(work, scratch);
    this.faceArea = scratch.float64(faces.count).fill(0);
    this.faceCells = scratch.float64(faces.count).fill(0);
    this.coveredBy = scratch.float64(plan.voids.length);
    this.lastSeen = scratch.int32(plan.voids.length).fill(-1);
    for (let e = 0; e < work.edgeCount; e++) {
      const left = faces.faceOf[2 * e]!;
      const right = faces.faceOf[2 * e + 1]!;
      this.faceArea[left]! += this.edges.area[e]!;
      this.faceArea[right]! -= this.edges.area[e]!;
      this.faceCells[left]! += this.edges.cells[e]!;
      this.faceCells[right]! -= this.edges.cells[e]!;
    }
  }

  run(): Partition {
    const { faceArea } = this;
    const { plan, work, zones: grouped, slabsOf, voidsOf } = this.cover;
    const zones = grouped.map((_, z) => this.zone(z));
    const slabs = plan.slabs.map(() => ({ area: 0, voidArea: 0, netArea: 0 }));
    for (const z of zones) {
      const slab = slabs[z.slab]!;
      slab.area += z.faceArea;
      slab.voidArea += z.voidArea;
    }
    for (const slab of slabs) slab.netArea = slab.area - slab.voidArea;
    const voids = plan.voids.map(() => ({ insideArea: 0 }));
    for (let f = 0; f < voidsOf.length; f++) {
      if (slabsOf[f]!.length > 0) for (const v of voidsOf[f]!) voids[v]!.insideArea += faceArea[f]!;
    }
    return { plan, zones, slabs, voids, overlaps: this.overlaps(), cell: work.grid.cell };
  }

  private zone(z: number): Zone {
    const { cover, shapes, voidCells, coveredBy, lastSeen } = this;
    const { plan, work, voidsOf } = cover;
    const { slab, faces } = cover.zones[z]!;
    let faceArea = 0;
    let netArea = 0;
    let netCells = 0;
    const touched: number[] = [];
    for (const f of faces) {
      const area = this.faceArea[f]!;
      faceArea += area;
      if (voidsOf[f]!.length === 0) {
        netArea += area;
        netCells += this.faceCells[f]!;
      }
      for (const v of voidsOf[f]!) {
        if (lastSeen[v] !== z) {
          touched.push(v);
          lastSeen[v] = z;
          coveredBy[v] = 0;
        }
        coveredBy[v]! += area;
      }
    }
    const voids = touched.sort((a, b) => a - b).map((v) => ({ void: v, area: coveredBy[v]! }));
    const netRings = trace(
      cover.faces,
      faces.filter((f) => voidsOf[f]!.length === 0),
    );
    const stretches = gatherStretches(
      {
        work,
        shapes,
        rings: netRings,
        sides: plan.slabs[slab]!.length,
        attribute: (ranks, uses) => cover.attribute(netRings, z, ranks, uses),
      },
      this.edges,
    );
    let boundary = 0;
    for (const s of stretches) boundary += s.length;
    const faceRings = once(() => trace(cover.faces, faces));
    const netPoints = once(() => netRings.map((ring) => ring.flatMap((h) => shapes.points(h))));
    const facePoints = once(() => faceRings().map((ring) => ring.flatMap((h) => shapes.points(h))));
    const netOutlines = once(() => netRings.map((ring) => joinSteps(ring.flatMap((h) => shapes.steps(h)))));
    return {
      slab,
      faceArea,
      voidArea: faceArea - netArea,
      netArea,
      voids,
      stretches,
      boundary,
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
        face: () => faceRings().map((ring) => ring.flatMap((h) => shapes.cellPoints(h))),
        voids: voidCells,
      },
      bentArea: this.bentArea(faces),
    };
  }

  private overlaps(): Partition['overlaps'] {
    const byPair = new Map<string, { a: number; b: number; area: number }>();
    this.cover.slabsOf.forEach((slabs, f) => {
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
  private bentArea(ofFaces: readonly number[]): number {
    const { work, faces } = this.cover;
    const { bent, from, to, loose, grid } = work;
    let sum = 0;
    for (const f of ofFaces) {
      for (let b = faces.firstBorder[f]!; b < faces.firstBorder[f + 1]!; b++) {
        const e = faces.borders[b]! >> 1;
        const off = Math.max(bent[from[e]!]!, bent[to[e]!]!, loose[e] ? 2 * grid.cell : 0);
        sum += off * this.edges.length[e]!;
      }
    }
    return sum;
  }
}

/** The outlines of several faces together: rings of half-edges with the faces on their left and others on their right. */
function trace({ count, faceOf, next, borders, firstBorder }: Faces, ofFaces: readonly number[]): number[][] {
  const mark = scratch.mark();
  const wanted = scratch.int32(count).fill(0);
  for (const f of ofFaces) wanted[f] = 1;
  // 1 where a wanted face lies on the left only; 2 once it was walked.
  const border = scratch.int32(faceOf.length);
  for (let h = 0; h < border.length; h++) border[h] = wanted[faceOf[h]!]! & ~wanted[faceOf[twin(h)]!]!;
  const rings: number[][] = [];
  for (const f of ofFaces) {
    for (let b = firstBorder[f]!; b < firstBorder[f + 1]!; b++) {
      const start = borders[b]!;
      if (border[start] !== 1) continue;
      const ring: number[] = [];
      let h = start;
      do {
        border[h] = 2;
        ring.push(h);
        h = next[h]!;
        while (border[h] === 0) h = next[twin(h)]!;
      } while (border[h] === 1);
      rings.push(ring);
    }
  }
  scratch.release(mark);
  return rings;
}
