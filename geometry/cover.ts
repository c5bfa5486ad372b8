import { scratch } from './columns.ts';
import { type HalfEdges, twin } from './half-edges.ts';
import { type NodedLinework, slotOf } from './linework.ts';
import type { Plan } from './plan.ts';
import { rank } from './stretches.ts';
import type { Windings } from './winding.ts';

/** Which slabs and voids lie on each face, and the zones that a slab's faces make: kept for whoever asks where they run. */
export class Cover {
  /** For each face the slabs and the voids that cover it, in order. */
  readonly slabsOf: ReadonlyArray<readonly number[]>;
  readonly voidsOf: ReadonlyArray<readonly number[]>;
  readonly zones: Array<{ readonly slab: number; readonly faces: number[] }> = [];
  /** For each face, the zones of the slabs in `slabsOf`. */
  private readonly zonesOf: ReadonlyArray<readonly number[]>;

  constructor(
    readonly plan: Plan,
    readonly work: NodedLinework,
    readonly halfEdges: HalfEdges,
    winding: Windings,
  ) {
    this.slabsOf = covering(winding, work, 'slab');
    this.voidsOf = covering(winding, work, 'void');
    this.zonesOf = this.groupIntoZones();
  }

  /** The zone of a slab that a face is of; −1 where it is outside the slab. */
  zoneAt(slab: number, face: number): number {
    const slabs = this.slabsOf[face]!;
    for (let k = 0; k < slabs.length; k++) if (slabs[k] === slab) return this.zonesOf[face]![k]!;
    return -1;
  }

  /** Joins faces of each slab across every edge that is neither its outline nor one of its cuts. */
  private groupIntoZones(): Array<readonly number[]> {
    const { halfEdges, slabsOf } = this;
    const facesOf: number[][] = this.plan.slabs.map(() => []);
    for (let f = 0; f < halfEdges.count; f++) for (const slab of slabsOf[f]!) facesOf[slab]!.push(f);
    const zonesOf: Array<readonly number[]> = slabsOf.map(() => NONE);
    const alone = new Alone();
    const mark = scratch.mark();
    // Faces of one slab, linked to the one that stands for them all; −1 outside the slab at hand.
    const parent = scratch.int32(halfEdges.count).fill(-1);
    const zoneOfRoot = scratch.int32(halfEdges.count);
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
        for (let b = halfEdges.firstBorder[f]!; b < halfEdges.firstBorder[f + 1]!; b++) {
          const h = halfEdges.borders[b]!;
          const beyond = halfEdges.faceOf[twin(h)]!;
          if (parent[beyond]! < 0 || this.cutAlong(h, slab) >= 0) continue;
          parent[find(f)] = find(beyond);
        }
      }
      for (const f of own) {
        const root = find(f);
        if (zoneOfRoot[root]! < 0) zoneOfRoot[root] = this.zones.push({ slab, faces: [] }) - 1;
        const z = zoneOfRoot[root]!;
        // Nearly every face is of one slab, and shares its list with the others of its zone.
        zonesOf[f] = zonesOf[f] === NONE ? alone.of(z) : [...zonesOf[f]!, z];
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
    const { work, halfEdges } = this;
    const { slab } = this.zones[z]!;
    let n = 0;
    for (const ring of rings) {
      for (const h of ring) {
        const beyond = halfEdges.faceOf[twin(h)]!;
        const otherZone = this.zoneAt(slab, beyond);
        const over = this.voidsOf[beyond]!;
        // What is on one side only is drawn along the edge between: there is always a use.
        let use: number;
        if (otherZone < 0) {
          use = this.drawnAlong(h, 'slab', slab);
          const slabs = this.slabsOf[beyond]!;
          ranks[n] = slabs.length === 0 ? rank.side : rank.slab(slabs[0]!);
        } else if (over.length > 0) {
          use = this.drawnAlong(h, 'void', over[0]!);
          ranks[n] = rank.void(over[0]!);
        } else {
          use = this.cutAlong(h, slab);
          ranks[n] = rank.cut(work.sources[work.lines.source[slotOf(use)]!]!.index, otherZone);
        }
        uses[n++] = use;
      }
    }
  }
}

const NONE: readonly number[] = [];

/** Lists of one number, each made once. */
class Alone {
  private readonly lists: Array<readonly number[] | undefined> = [];

  of(n: number): readonly number[] {
    const list = this.lists[n] ?? [n];
    this.lists[n] = list;
    return list;
  }
}

/** For each face the slabs or the voids among the sources that wind around it, in order; faces share lists of one. */
function covering(
  winding: Windings,
  { sources }: NodedLinework,
  kind: 'slab' | 'void',
): Array<readonly number[]> {
  const alone = new Alone();
  return winding.map((around) => {
    let only = -1;
    let more: number[] | null = null;
    for (let i = 0; i < around.length; i += 2) {
      const source = sources[around[i]!]!;
      if (source.kind !== kind) continue;
      if (only < 0) only = source.index;
      else if (more) more.push(source.index);
      else more = [only, source.index];
    }
    if (more || only < 0) return more ?? NONE;
    return alone.of(only);
  });
}

/** The outlines of several faces together: rings of half-edges with the faces on their left and others on their right. */
export function trace(
  { count, faceOf, next, borders, firstBorder }: HalfEdges,
  ofFaces: readonly number[],
): number[][] {
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
