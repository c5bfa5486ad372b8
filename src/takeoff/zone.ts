import {
  insidePoints,
  type LabelPoint,
  type Point,
  type Ring,
  type SecondOpinion,
} from '../../geometry/index.ts';
import type { Beyond, Id, Surface } from '../job/types.ts';
import type { GroundPoint, Metres, SquareMetres } from '../units/types.ts';
import type { Quantity } from '../working/quantity.ts';
import type { EdgeRule } from './edge-rules.ts';
import type { NoFit, SolvedFit } from './fits/solved-fit.ts';
import type { TapeFigure } from './fits/tape-figure.ts';

/** All of a zone's boundary that is there for one reason. */
export interface StretchTakeoff extends EdgeRule {
  readonly kind: 'side' | 'slab' | 'cut' | 'void';
  /** The corner that a slab's side leaves from, the neighbouring slab, the zone across the cut, or the void. */
  readonly ref: Id;
  /** The same for people. */
  readonly refName: string;
  readonly beyond: Beyond | null;
  /** Which side of its own slab it is, where it is one. */
  readonly side: number | null;
  /** The cut it runs along, where it is one. */
  readonly cutId: Id | null;
  readonly lengthM: Metres;
  /** Height of the face that stands up along it and is coated too; 0 for none. */
  readonly faceUpM: Metres;
  /** On the ground, with the zone on the left. */
  readonly runs: readonly GroundPoint[][];
}

/** One zone: a face of a slab between its outline and its cuts. */
export interface ZoneTakeoff {
  readonly id: Id;
  readonly slabId: Id;
  readonly sheetId: Id;
  readonly tagId: Id | null;
  /** Tags whose anchors lie in this zone; more than one is a question for the user. */
  readonly tagIds: readonly Id[];
  readonly name: string;
  readonly surface: Surface;
  readonly netArea: Quantity;
  /** Standard uncertainty of the net area. */
  readonly areaUncertainty: Quantity;
  /** The net area is within this of the true one in 95 of 100 cases. */
  readonly area95: Quantity;
  /** Faces up along its sides, and what is coated in all: net area and faces up. */
  readonly facesUp: Quantity;
  readonly coatedArea: Quantity;
  /** What is paid for under the job's measuring rule. */
  readonly paymentArea: Quantity;
  /** The band along cut-in edges, and the rest of the net area. */
  readonly brushArea: Quantity;
  readonly rollerArea: Quantity;
  readonly faceAreaM2: SquareMetres;
  readonly voidAreaM2: SquareMetres;
  readonly voids: ReadonlyArray<{ readonly id: Id; readonly name: string; readonly areaM2: SquareMetres }>;
  readonly stretches: readonly StretchTakeoff[];
  readonly boundary: Quantity;
  readonly boundaryUncertainty: Quantity;
  readonly cutIn: Quantity;
  readonly masked: Quantity;
  readonly label: LabelPoint | null;
  /** Outlines on the ground, arcs as points: of what is coated, and of the whole face. */
  readonly netRings: readonly Point[][];
  readonly faceRings: readonly Point[][];
  /** The outlines of what is coated with their true arcs, holes among them; holes run clockwise. */
  readonly netOutlines: readonly Ring[];
  /** Whether an independent engine came to the same area. */
  readonly secondOpinion: SecondOpinion;
}

/** One slab's sums. */
export interface SlabTakeoff {
  readonly id: Id;
  readonly name: string;
  readonly sheetId: Id;
  readonly outlineAreaM2: SquareMetres;
  readonly voidAreaM2: SquareMetres;
  readonly netAreaM2: SquareMetres;
}

/** A sheet's fit, solved. */
export interface SheetTakeoff {
  readonly id: Id;
  readonly fit: SolvedFit | NoFit;
}

/** Everything measured. Slabs on sheets without a scale are named in `unscaled` and measured nowhere. */
export interface Takeoff {
  readonly slabs: readonly SlabTakeoff[];
  readonly zones: readonly ZoneTakeoff[];
  readonly voids: ReadonlyArray<{ readonly id: Id; readonly insideAreaM2: SquareMetres }>;
  readonly overlaps: ReadonlyArray<{ readonly a: Id; readonly b: Id; readonly areaM2: SquareMetres }>;
  readonly unscaled: readonly Id[];
  /** Slabs and voids with corners at or beyond the horizon of their photo, measured nowhere. */
  readonly unseen: readonly Id[];
  /** Every sheet's way to the ground, or why it has none. */
  readonly sheets: readonly SheetTakeoff[];
  /** What tapes between corners make of them. */
  readonly figures: readonly TapeFigure[];
}

/** Whether a point lies within rings, holes left out. */
export const insideRings = (rings: readonly Point[][], p: Point): boolean =>
  rings.filter((ring) => insidePoints(ring, p)).length % 2 === 1;

/** The zone whose face holds a place on the ground. */
export const zoneAt = (zones: readonly ZoneTakeoff[], p: GroundPoint): ZoneTakeoff | null =>
  zones.find((zone) => insideRings(zone.faceRings, p)) ?? null;

/** The slab of a zone; a zone that is not measured goes by its slab's id. */
export const slabIdOf = (takeoff: Takeoff, zoneId: Id): Id =>
  takeoff.zones.find((z) => z.id === zoneId)?.slabId ?? zoneId.split('/')[0]!;

export type { FitCheck, NoFit, SolvedFit } from './fits/solved-fit.ts';
export type { TapeFigure } from './fits/tape-figure.ts';
