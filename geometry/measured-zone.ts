import { Columns } from './columns.ts';
import { trace } from './cover.ts';
import { joinSteps } from './outline.ts';
import type { Stretch, Zone } from './plan.ts';
import type { Point } from './point.ts';
import type { Ring } from './ring.ts';
import { mapRows, type Rows } from './rows.ts';
import { type Boundary, type Lengths, stretchesOf } from './stretches.ts';

/** What a zone's lists and outlines are made from, when somebody asks. */
interface ZoneGround {
  readonly boundary: Boundary;
  readonly lengths: Lengths;
  readonly netCells: number;
  /** The voids that touch its face, and how much of it each covers. */
  readonly voids: Int32Array;
  readonly covered: Float64Array;
}

/** A zone whose sums are at hand, and whose lists and outlines are made the first time they are asked for. */
export class MeasuredZone implements Zone {
  readonly voidArea: number;
  readonly boundary: number;
  private voidsListed: Zone['voids'] | null = null;
  private stretchesMade: Stretch[] | null = null;
  private facesTraced: Rows | null = null;
  private netPoints: Point[][] | null = null;
  private facePoints: Point[][] | null = null;
  private outlines: Ring[] | null = null;

  constructor(
    readonly slab: number,
    readonly faceArea: number,
    readonly netArea: number,
    readonly bentArea: number,
    private readonly ground: ZoneGround,
  ) {
    this.voidArea = faceArea - netArea;
    let boundary = 0;
    for (const length of ground.lengths.lengths) boundary += length;
    this.boundary = boundary;
  }

  get voids(): Zone['voids'] {
    const { voids, covered } = this.ground;
    this.voidsListed ??= Array.from(voids, (v, i) => ({ void: v, area: covered[i]! }));
    return this.voidsListed;
  }

  get stretches(): readonly Stretch[] {
    const { boundary, lengths } = this.ground;
    this.stretchesMade ??= stretchesOf(boundary, lengths);
    return this.stretchesMade;
  }

  get netRings(): readonly Point[][] {
    const { shapes, rings } = this.ground.boundary;
    this.netPoints ??= mapRows(rings, (ring) => around(ring, (h) => shapes.points(h)));
    return this.netPoints;
  }

  get faceRings(): readonly Point[][] {
    const { shapes } = this.ground.boundary;
    this.facePoints ??= mapRows(this.faceEdges(), (ring) => around(ring, (h) => shapes.points(h)));
    return this.facePoints;
  }

  get netOutlines(): readonly Ring[] {
    const { shapes, rings } = this.ground.boundary;
    this.outlines ??= mapRows(rings, (ring) => joinSteps(around(ring, (h) => shapes.steps(h))));
    return this.outlines;
  }

  get cells(): Zone['cells'] {
    const { boundary, netCells } = this.ground;
    const { cover, shapes } = boundary;
    return {
      net: netCells,
      face: () => mapRows(this.faceEdges(), (ring) => around(ring, (h) => shapes.cellPoints(h))),
      voids: () => cover.voidCells(),
    };
  }

  /** Half-edges around the face. */
  private faceEdges(): Rows {
    const { cover, zone } = this.ground.boundary;
    const { halfEdges, zones } = cover;
    this.facesTraced ??= trace(halfEdges, zones[zone]!.faces, new Columns(8 * halfEdges.faceOf.length + 64));
    return this.facesTraced;
  }
}

/** What each half-edge of a ring brings, one after another. */
const around = <T>(ring: Int32Array, of: (h: number) => T[]): T[] => Array.from(ring).flatMap(of);
