import { rank } from './causes.ts';
import { type Columns, scratch } from './columns.ts';
import { type HalfEdges, twin } from './half-edges.ts';
import { type NodedLinework, slotOf, voidCells } from './linework.ts';
import type { Plan } from './plan.ts';
import type { Point } from './point.ts';
import { type Rows, rowLength } from './rows.ts';
import type { Windings } from './winding.ts';

/** Which slabs and voids lie on each face, and the zones that a slab's faces make: kept for whoever asks where they run. */
export class Cover {
  /** For each face the slabs and the voids that cover it, in order. */
  readonly slabs: Rows;
  readonly voids: Rows;
  readonly zones: Array<{ readonly slab: number; readonly faces: number[] }> = [];
  /** For each item of `slabs` the zone that its face is of. */
  private readonly zoneOf: Int32Array;
  private voidsTraced: readonly Point[][] | null = null;

  constructor(
    readonly plan: Plan,
    readonly work: NodedLinework,
    readonly halfEdges: HalfEdges,
    winding: Windings,
  ) {
    const { sources, columns } = work.lines;
    this.slabs = covering(winding, 0, sources.slabs, columns);
    this.voids = covering(winding, sources.ofVoid(0), sources.count, columns);
    this.zoneOf = columns.int32(this.slabs.items.length);
    this.groupIntoZones();
  }

  /** The zone of a slab that a face is of; −1 where it is outside the slab. */
  zoneAt(slab: number, face: number): number {
    const { first, items } = this.slabs;
    for (let k = first[face]!; k < first[face + 1]!; k++) if (items[k] === slab) return this.zoneOf[k]!;
    return -1;
  }

  /** Each void's outline in whole cells. */
  voidCells(): readonly Point[][] {
    this.voidsTraced ??= voidCells(this.work);
    return this.voidsTraced;
  }

  /** Joins faces of each slab across every edge that is neither its outline nor one of its cuts. */
  private groupIntoZones(): void {
    const { halfEdges, slabs, zoneOf } = this;
    // Places in `slabs`, each of a face.
    const placesOf: number[][] = this.plan.slabs.map(() => []);
    const mark = scratch.mark();
    const faceAt = scratch.int32(slabs.items.length);
    for (let f = 0; f < halfEdges.count; f++) {
      for (let k = slabs.first[f]!; k < slabs.first[f + 1]!; k++) {
        faceAt[k] = f;
        placesOf[slabs.items[k]!]!.push(k);
      }
    }
    // Faces of one slab, linked to the one that stands for them all; −1 outside the slab at hand.
    const parent = scratch.int32(halfEdges.count).fill(-1);
    const zoneOfRoot = scratch.int32(halfEdges.count);
    const find = (f: number): number => {
      let r = f;
      while (parent[r] !== r) r = parent[r]!;
      parent[f] = r;
      return r;
    };
    placesOf.forEach((places, slab) => {
      for (const k of places) {
        const f = faceAt[k]!;
        parent[f] = f;
        zoneOfRoot[f] = -1;
      }
      for (const k of places) {
        const f = faceAt[k]!;
        for (let b = halfEdges.firstBorder[f]!; b < halfEdges.firstBorder[f + 1]!; b++) {
          const h = halfEdges.borders[b]!;
          const beyond = halfEdges.faceOf[twin(h)]!;
          if (parent[beyond]! < 0 || this.cutAlong(h, slab) >= 0) continue;
          parent[find(f)] = find(beyond);
        }
      }
      for (const k of places) {
        const root = find(faceAt[k]!);
        if (zoneOfRoot[root]! < 0) zoneOfRoot[root] = this.zones.push({ slab, faces: [] }) - 1;
        zoneOf[k] = zoneOfRoot[root]!;
        this.zones[zoneOf[k]!]!.faces.push(faceAt[k]!);
      }
      for (const k of places) parent[faceAt[k]!] = -1;
    });
    scratch.release(mark);
  }

  /** The use of a half-edge's edge by a cut of the slab; −1 when there is none. */
  private cutAlong(h: number, slab: number): number {
    const { work, plan } = this;
    const { sources, source } = work.lines;
    for (let u = work.firstUse[h >> 1]!; u >= 0; u = work.nextUse[u]!) {
      const s = source[slotOf(work.uses[u]!)]!;
      if (sources.isCut(s) && plan.cuts[s - sources.ofCut(0)]!.slab === slab) return work.uses[u]!;
    }
    return -1;
  }

  /** The use of a half-edge's edge by one source; −1 when there is none. */
  private drawnAlong(h: number, source: number): number {
    const { work } = this;
    for (let u = work.firstUse[h >> 1]!; u >= 0; u = work.nextUse[u]!) {
      if (work.lines.source[slotOf(work.uses[u]!)] === source) return work.uses[u]!;
    }
    return -1;
  }

  /**
   * Why each of the half-edges bounds the net area of zone z: its cause without a side (see `rank`) and the use along it.
   * What lies on its right decides, before what is drawn along it.
   */
  attribute(halfEdges: Int32Array, z: number, ranks: Float64Array, uses: Int32Array): void {
    const { work, slabs, voids } = this;
    const { faceOf } = this.halfEdges;
    const { sources, source } = work.lines;
    const { slab } = this.zones[z]!;
    for (let n = 0; n < halfEdges.length; n++) {
      const h = halfEdges[n]!;
      const beyond = faceOf[twin(h)]!;
      const otherZone = this.zoneAt(slab, beyond);
      // What is on one side only is drawn along the edge between: there is always a use.
      let use: number;
      if (otherZone < 0) {
        use = this.drawnAlong(h, slab);
        ranks[n] = rowLength(slabs, beyond) === 0 ? rank.side : rank.slab(slabs.items[slabs.first[beyond]!]!);
      } else if (rowLength(voids, beyond) > 0) {
        const over = voids.items[voids.first[beyond]!]!;
        use = this.drawnAlong(h, sources.ofVoid(over));
        ranks[n] = rank.void(over);
      } else {
        use = this.cutAlong(h, slab);
        ranks[n] = rank.cut(source[slotOf(use)]! - sources.ofCut(0), otherZone);
      }
      uses[n] = use;
    }
  }
}

/** For each face those that wind around it of the sources from `start` up to `end`, numbered from `start`, in order. */
function covering(winding: Windings, start: number, end: number, columns: Columns): Rows {
  let n = 0;
  for (const around of winding) {
    for (let i = 0; i < around.length; i += 2) if (around[i]! >= start && around[i]! < end) n++;
  }
  const first = columns.int32(winding.length + 1);
  const items = columns.int32(n);
  n = 0;
  first[0] = 0;
  for (let f = 0; f < winding.length; f++) {
    const around = winding[f]!;
    for (let i = 0; i < around.length; i += 2) {
      if (around[i]! >= start && around[i]! < end) items[n++] = around[i]! - start;
    }
    first[f + 1] = n;
  }
  return { first, items };
}

/** The outlines of several faces together: rings of half-edges with the faces on their left and others on their right. */
export function trace(
  { count, faceOf, next, borders, firstBorder }: HalfEdges,
  ofFaces: readonly number[],
  columns: Columns,
): Rows {
  const mark = scratch.mark();
  const wanted = scratch.int32(count).fill(0);
  for (const f of ofFaces) wanted[f] = 1;
  // 1 where a wanted face lies on the left only; 2 once it was walked.
  const border = scratch.int32(faceOf.length);
  for (let h = 0; h < border.length; h++) border[h] = wanted[faceOf[h]!]! & ~wanted[faceOf[twin(h)]!]!;
  const items = scratch.int32(faceOf.length);
  const first = scratch.int32(faceOf.length + 1);
  let rings = 0;
  let n = 0;
  first[0] = 0;
  for (const f of ofFaces) {
    for (let b = firstBorder[f]!; b < firstBorder[f + 1]!; b++) {
      const start = borders[b]!;
      if (border[start] !== 1) continue;
      let h = start;
      do {
        border[h] = 2;
        items[n++] = h;
        h = next[h]!;
        while (border[h] === 0) h = next[twin(h)]!;
      } while (border[h] === 1);
      first[++rings] = n;
    }
  }
  const traced = {
    first: columns.copied(first.subarray(0, rings + 1)),
    items: columns.copied(items.subarray(0, n)),
  };
  scratch.release(mark);
  return traced;
}
