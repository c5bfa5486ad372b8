import { type Cover, trace } from './cover.ts';
import { joinSteps } from './outline.ts';
import type { Stretch, Zone } from './plan.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import { type Boundary, type Lengths, stretchesOf } from './stretches.ts';

/** What was measured of a zone at once. */
type ZoneSums = Pick<Zone, 'slab' | 'faceArea' | 'netArea' | 'voids' | 'bentArea'>;

/** What its stretches and outlines are made from, when somebody asks. */
interface ZoneGround {
  readonly cover: Cover;
  /** Of the net area. */
  readonly boundary: Boundary;
  readonly lengths: Lengths;
  readonly voidCells: () => readonly Point[][];
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
  readonly boundary: number;
  readonly bentArea: number;
  private stretchesMade: Stretch[] | null = null;
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
    let boundary = 0;
    for (const length of ground.lengths.lengths) boundary += length;
    this.boundary = boundary;
    this.bentArea = sums.bentArea;
  }

  get stretches(): readonly Stretch[] {
    const { boundary, lengths } = this.ground;
    this.stretchesMade ??= stretchesOf(boundary, lengths);
    return this.stretchesMade;
  }

  get netRings(): readonly Point[][] {
    const { shapes, rings } = this.ground.boundary;
    this.netPoints ??= rings.map((ring) => ring.flatMap((h) => shapes.points(h)));
    return this.netPoints;
  }

  get faceRings(): readonly Point[][] {
    const { shapes } = this.ground.boundary;
    this.facePoints ??= this.faceEdges().map((ring) => ring.flatMap((h) => shapes.points(h)));
    return this.facePoints;
  }

  get netOutlines(): readonly Ring[] {
    const { shapes, rings } = this.ground.boundary;
    this.outlines ??= rings.map((ring) => joinSteps(ring.flatMap((h) => shapes.steps(h))));
    return this.outlines;
  }

  get cells(): Zone['cells'] {
    const { boundary, voidCells, netCells } = this.ground;
    return {
      net: netCells,
      face: () => this.faceEdges().map((ring) => ring.flatMap((h) => boundary.shapes.cellPoints(h))),
      voids: voidCells,
    };
  }

  /** Half-edges around the face. */
  private faceEdges(): readonly number[][] {
    const { cover, faces } = this.ground;
    this.facesTraced ??= trace(cover.halfEdges, faces);
    return this.facesTraced;
  }
}
