import { type Cover, trace } from './cover.ts';
import type { EdgeShapes } from './edge-measures.ts';
import { joinSteps } from './outline.ts';
import type { Stretch, Zone } from './plan.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';

/** What was measured of a zone at once. */
type ZoneSums = Pick<Zone, 'slab' | 'faceArea' | 'netArea' | 'voids' | 'stretches' | 'bentArea'>;

/** What its outlines are drawn from, when somebody asks. */
interface ZoneGround {
  readonly cover: Cover;
  readonly shapes: EdgeShapes;
  readonly voidCells: () => readonly Point[][];
  /** Half-edges around the net area. */
  readonly netRings: readonly number[][];
  readonly faces: readonly number[];
  readonly netCells: number;
}

/** A zone whose sums are at hand, and whose outlines are worked out the first time they are asked for. */
export class MeasuredZone implements Zone {
  readonly slab: number;
  readonly faceArea: number;
  readonly voidArea: number;
  readonly netArea: number;
  readonly voids: Zone['voids'];
  readonly stretches: readonly Stretch[];
  readonly boundary: number;
  readonly bentArea: number;
  private facesTraced: number[][] | null = null;
  private netPoints: Point[][] | null = null;
  private facePoints: Point[][] | null = null;
  private outlines: Ring[] | null = null;

  constructor(
    sums: ZoneSums,
    private readonly ground: ZoneGround,
  ) {
    this.slab = sums.slab;
    this.faceArea = sums.faceArea;
    this.voidArea = sums.faceArea - sums.netArea;
    this.netArea = sums.netArea;
    this.voids = sums.voids;
    this.stretches = sums.stretches;
    let boundary = 0;
    for (const { length } of sums.stretches) boundary += length;
    this.boundary = boundary;
    this.bentArea = sums.bentArea;
  }

  get netRings(): readonly Point[][] {
    const { shapes, netRings } = this.ground;
    this.netPoints ??= netRings.map((ring) => ring.flatMap((h) => shapes.points(h)));
    return this.netPoints;
  }

  get faceRings(): readonly Point[][] {
    const { shapes } = this.ground;
    this.facePoints ??= this.faceEdges().map((ring) => ring.flatMap((h) => shapes.points(h)));
    return this.facePoints;
  }

  get netOutlines(): readonly Ring[] {
    const { shapes, netRings } = this.ground;
    this.outlines ??= netRings.map((ring) => joinSteps(ring.flatMap((h) => shapes.steps(h))));
    return this.outlines;
  }

  get cells(): Zone['cells'] {
    const { shapes, voidCells, netCells } = this.ground;
    return {
      net: netCells,
      face: () => this.faceEdges().map((ring) => ring.flatMap((h) => shapes.cellPoints(h))),
      voids: voidCells,
    };
  }

  /** Half-edges around the face. */
  private faceEdges(): readonly number[][] {
    const { cover, faces } = this.ground;
    this.facesTraced ??= trace(cover.faces, faces);
    return this.facesTraced;
  }
}
