import { scratch } from './columns.ts';
import type { Contacts } from './contacts.ts';
import { Cover, trace } from './cover.ts';
import { type EdgeMeasures, EdgeShapes, measureEdges } from './edge-measures.ts';
import { findFaces } from './faces.ts';
import { nodeLinework } from './linework.ts';
import { MeasuredZone } from './measured-zone.ts';
import type { Partition, Plan, PlanProblem, Zone } from './plan.ts';
import { fail, ok, type Result } from './result.ts';
import { rowLength } from './rows.ts';
import { sortShort } from './sort-short.ts';
import { inRange, type Straight } from './straight.ts';
import { type Boundary, lengthsByCause } from './stretches.ts';

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
  const made = partitionKnown(plan, [], null);
  return made.ok ? ok(made.value.partition) : made;
}

/** What stands of a plan, and what helps with one much like it. */
export interface KnownPartition {
  readonly partition: Partition;
  readonly contacts: Contacts | null;
}

/**
 * The same, where some of the plan's outlines and paths are known as columns: slabs, then cuts, then voids; and where
 * something is known of a plan before.
 */
export function partitionKnown(
  plan: Plan,
  straight: readonly (Straight | null)[],
  before: Contacts | null,
): Result<KnownPartition, PlanProblem> {
  const problem = findBadCoordinate(plan, straight);
  if (problem) return fail(problem);
  const work = nodeLinework(
    plan.slabs,
    plan.cuts.map((c) => c.path),
    plan.voids,
    plan.weld,
    straight,
    before,
  );
  const { halfEdges, winding } = findFaces(work);
  const mark = scratch.mark();
  const made = new Partitioner(new Cover(plan, work, halfEdges, winding)).run();
  scratch.release(mark);
  return ok({ partition: made, contacts: work.contacts });
}

function findBadCoordinate(
  { slabs, cuts, voids }: Plan,
  straight: readonly (Straight | null)[],
): PlanProblem | null {
  const bad = (kind: PlanProblem['kind'], index: number): PlanProblem => ({
    code: 'plan/not-finite',
    kind,
    index,
  });
  let s = 0;
  for (let i = 0; i < slabs.length; i++) if (!straight[s++] && !inRange(slabs[i]!)) return bad('slab', i);
  for (let i = 0; i < cuts.length; i++) if (!straight[s++] && !inRange(cuts[i]!.path)) return bad('cut', i);
  for (let i = 0; i < voids.length; i++) if (!straight[s++] && !inRange(voids[i]!)) return bad('void', i);
  return null;
}

class MeasuredPartition implements Partition {
  private voidsListed: Partition['voids'] | null = null;

  constructor(
    readonly plan: Plan,
    readonly zones: readonly Zone[],
    readonly slabs: Partition['slabs'],
    readonly overlaps: Partition['overlaps'],
    readonly cell: number,
    private readonly inside: Float64Array,
  ) {}

  get voids(): Partition['voids'] {
    this.voidsListed ??= Array.from(this.inside, (insideArea) => ({ insideArea }));
    return this.voidsListed;
  }
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

  constructor(private readonly cover: Cover) {
    const { plan, work, halfEdges } = cover;
    this.shapes = new EdgeShapes(plan, work);
    this.edges = measureEdges(work, scratch);
    this.faceArea = scratch.float64(halfEdges.count).fill(0);
    this.faceCells = scratch.float64(halfEdges.count).fill(0);
    this.coveredBy = scratch.float64(plan.voids.length);
    this.lastSeen = scratch.int32(plan.voids.length).fill(-1);
    for (let e = 0; e < work.edgeCount; e++) {
      const left = halfEdges.faceOf[2 * e]!;
      const right = halfEdges.faceOf[2 * e + 1]!;
      this.faceArea[left]! += this.edges.area[e]!;
      this.faceArea[right]! -= this.edges.area[e]!;
      this.faceCells[left]! += this.edges.cells[e]!;
      this.faceCells[right]! -= this.edges.cells[e]!;
    }
  }

  run(): Partition {
    const { faceArea } = this;
    const { plan, work, zones: grouped, slabs: slabsOf, voids: voidsOf } = this.cover;
    const zones = grouped.map((_, z) => this.zone(z));
    const slabs = plan.slabs.map(() => ({ area: 0, voidArea: 0, netArea: 0 }));
    for (const z of zones) {
      const slab = slabs[z.slab]!;
      slab.area += z.faceArea;
      slab.voidArea += z.voidArea;
    }
    for (const slab of slabs) slab.netArea = slab.area - slab.voidArea;
    const inside = work.lines.columns.float64(plan.voids.length).fill(0);
    for (let f = 0; f < faceArea.length; f++) {
      if (rowLength(slabsOf, f) === 0) continue;
      for (let k = voidsOf.first[f]!; k < voidsOf.first[f + 1]!; k++)
        inside[voidsOf.items[k]!]! += faceArea[f]!;
    }
    return new MeasuredPartition(plan, zones, slabs, this.overlaps(), work.grid.cell, inside);
  }

  private zone(zone: number): Zone {
    const { cover, shapes, coveredBy, lastSeen } = this;
    const { first, items } = cover.voids;
    const { columns } = cover.work.lines;
    const { slab, faces } = cover.zones[zone]!;
    let faceArea = 0;
    let netArea = 0;
    let netCells = 0;
    const net: number[] = [];
    const touched: number[] = [];
    for (const f of faces) {
      const area = this.faceArea[f]!;
      faceArea += area;
      if (first[f] === first[f + 1]) {
        net.push(f);
        netArea += area;
        netCells += this.faceCells[f]!;
      }
      for (let k = first[f]!; k < first[f + 1]!; k++) {
        const v = items[k]!;
        if (lastSeen[v] !== zone) {
          touched.push(v);
          lastSeen[v] = zone;
          coveredBy[v] = 0;
        }
        coveredBy[v]! += area;
      }
    }
    const voids = columns.copied(sortShort(touched, (a, b) => a - b));
    const covered = columns.float64(voids.length);
    for (let i = 0; i < voids.length; i++) covered[i] = coveredBy[voids[i]!]!;
    const boundary: Boundary = { cover, zone, shapes, rings: trace(cover.halfEdges, net, columns) };
    const lengths = lengthsByCause(boundary, this.edges);
    return new MeasuredZone(slab, faceArea, netArea, this.bentArea(faces), {
      boundary,
      lengths,
      netCells,
      voids,
      covered,
    });
  }

  private overlaps(): Partition['overlaps'] {
    const { first, items } = this.cover.slabs;
    const byPair = new Map<string, { a: number; b: number; area: number }>();
    for (let f = 0; f < this.faceArea.length; f++) {
      for (let i = first[f]!; i < first[f + 1]!; i++) {
        for (let j = i + 1; j < first[f + 1]!; j++) {
          const [a, b] = [items[i]!, items[j]!];
          const pair = byPair.get(`${a} ${b}`) ?? { a, b, area: 0 };
          pair.area += this.faceArea[f]!;
          byPair.set(`${a} ${b}`, pair);
        }
      }
    }
    return [...byPair.values()];
  }

  /**
   * What lines were bent by, at least two cells, along every edge that begins or ends where one was. Edges under
   * voids count too, for a sliver between a void and a side that closed up lies along none other.
   */
  private bentArea(ofFaces: readonly number[]): number {
    const { work, halfEdges } = this.cover;
    const { bent, from, to, loose, grid } = work;
    let sum = 0;
    for (const f of ofFaces) {
      for (let b = halfEdges.firstBorder[f]!; b < halfEdges.firstBorder[f + 1]!; b++) {
        const e = halfEdges.borders[b]! >> 1;
        const off = Math.max(bent[from[e]!]!, bent[to[e]!]!, loose[e] ? 2 * grid.cell : 0);
        sum += off * this.edges.length[e]!;
      }
    }
    return sum;
  }
}
