import type { GroundPoint, Litres, Metres, Radians, SheetPoint, SquareMetres } from '../units/types.ts';
import type { Business, Customer, OfferName, WorkRecord } from './paper-types.ts';

/** A name that never changes and never depends on position; made outside, passed in. */
export type Id = string;

export const TEXTURES = ['trowelled', 'light-broom', 'heavy-broom', 'stipple', 'exposed-aggregate'] as const;
export type Texture = (typeof TEXTURES)[number];

export const TRAFFICS = ['foot', 'cars', 'heavy'] as const;
export type Traffic = (typeof TRAFFICS)[number];

export const BEYONDS = ['open', 'wall', 'fence', 'kerb', 'planting', 'threshold', 'slab'] as const;
/** What stands beyond a side. */
export type Beyond = (typeof BEYONDS)[number];

export const VOID_KINDS = ['drain', 'post', 'pit', 'planter', 'plinth', 'other'] as const;
export type VoidKind = (typeof VOID_KINDS)[number];

/** Concrete as it is found: bare, painted before, sealed, stencilled or stamped, coloured all through. */
export const CONDITIONS = ['bare', 'painted', 'sealed', 'patterned', 'coloured'] as const;
export type Condition = (typeof CONDITIONS)[number];

/** How a surface is made ready; what suits its condition where nothing is said. */
export const PREPARATIONS = ['etch', 'grind', 'abrade', 'wash'] as const;
export type Preparation = (typeof PREPARATIONS)[number];

/** The base a colour is tinted into. */
export const TINT_BASES = ['white', 'light', 'medium', 'deep', 'clear'] as const;
export type TintBase = (typeof TINT_BASES)[number];

export const FINISHES = ['matt', 'satin', 'gloss'] as const;
export type Finish = (typeof FINISHES)[number];

/** A line on a sheet whose length on the ground is known. */
export interface KnownLength {
  readonly a: SheetPoint;
  readonly b: SheetPoint;
  readonly lengthM: Metres;
}

/** How far from the known length its scale can be believed, and why. */
export interface FitReach {
  readonly distanceM: Metres;
  readonly reason: string;
}

/** A mark on a photo that can be found again on the ground; where it is, in metres, if that is known. */
export interface GroundMark {
  readonly at: SheetPoint;
  readonly on: GroundPoint | null;
}

/** A taped distance between two marks, by their numbers. */
export interface MarkTape {
  readonly a: number;
  readonly b: number;
  readonly lengthM: Metres;
}

/** What is known of marks on the ground: corners of a rectangle in turn, each one's place, or distances between them. */
export type KnownMarks =
  | { readonly type: 'rectangle'; readonly lengthM: Metres; readonly widthM: Metres }
  | { readonly type: 'points' }
  | { readonly type: 'tapes'; readonly tapes: readonly MarkTape[] };

/** Bends of a lens, one radial term: u ↦ u·(1 + k·|u|²) about a centre, u in units of a radius in pixels. */
export interface LensBend {
  readonly centre: SheetPoint;
  readonly radius: number;
  readonly k: number;
}

/** What takes sheet coordinates to metres on the ground. */
export type Fit =
  | { readonly kind: 'metric' }
  | {
      readonly kind: 'scale';
      readonly lengths: readonly KnownLength[];
      readonly reach: FitReach | null;
      /** The scan is stretched: one scale across, another up and down. */
      readonly stretched?: boolean;
      /** Somebody has said that it is a plan, or was taken from straight above: one scale holds all over it. */
      readonly flat?: boolean;
    }
  /** A drawing at full size in its own units. */
  | { readonly kind: 'drawing'; readonly metresPerUnit: number }
  /** A page at 1 : ratio, in points of 1/72 inch. */
  | { readonly kind: 'page'; readonly ratio: number }
  /** A photo at an angle, straightened by marks on the ground, and by lines that are straight where its lens bends them. */
  | {
      readonly kind: 'marks';
      readonly marks: readonly GroundMark[];
      readonly known: KnownMarks;
      readonly straights: ReadonlyArray<readonly SheetPoint[]>;
    }
  /** A picture made from another sheet's photo by straightening it: from its own pixels to the photo's, row by row. */
  | {
      readonly kind: 'straightened';
      readonly sheetId: Id;
      readonly toPhoto: readonly number[];
      readonly lens: LensBend | null;
    }
  /** Metres east and north of a place. */
  | {
      readonly kind: 'georeferenced';
      readonly latitude: number;
      readonly longitude: number;
      /** Recorded on a walk, or read off a map. */
      readonly from: 'walk' | 'map';
      /** Standard deviation of each coordinate of a point where the source says it. */
      readonly deviationM: Metres | null;
    };

/** A picture under a sheet: a photo, a drawing, or a page of a document. */
export interface SheetPicture {
  readonly imageId: Id;
  /** Size in the sheet's own units: pixels, points of a page, units of a drawing. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Which page of a document, from 1. */
  readonly page?: number;
  /** What opens a locked document; it is kept with the job, as the document is. */
  readonly password?: string;
  /** Lines of a drawing rather than a photo or scan. */
  readonly drawn?: boolean;
}

/** Something to trace over, with its own coordinates: y down, for a picture; metres, y up, for a grid. */
export interface Sheet {
  readonly id: Id;
  readonly name: string;
  readonly picture: SheetPicture | null;
  readonly fit: Fit | null;
}

/** Something taped between corners of a metric sheet: a distance, a right angle, an offset from the line a→b (left positive). */
export type Tape = { readonly id: Id } & (
  | { readonly kind: 'distance'; readonly a: Id; readonly b: Id; readonly lengthM: Metres }
  | { readonly kind: 'square'; readonly at: Id; readonly a: Id; readonly b: Id }
  | {
      readonly kind: 'offset';
      readonly a: Id;
      readonly b: Id;
      readonly corner: Id;
      readonly alongM: Metres;
      readonly offM: Metres;
    }
);

/** A point of the drawing, shared by all that meets there. */
export interface Corner extends SheetPoint {
  readonly id: Id;
  readonly sheetId: Id;
}

/** A corner of a slab and the side that leaves it: straight, or the arc through `via`. */
export interface SlabCorner {
  readonly cornerId: Id;
  readonly via: SheetPoint | null;
  readonly beyond: Beyond | null;
  /** Height of a face that stands up or drops along the side and is coated too: a riser, a kerb face, a slab's edge. */
  readonly faceUpM?: Metres;
  /** Whether a painter can step off the slab over this side. */
  readonly exit?: boolean;
}

/** How a surface is and what it is to get. */
export interface Surface {
  readonly texture: Texture;
  readonly traffic: Traffic;
  readonly condition: Condition;
  /** A system's id; null leaves the surface uncoated. */
  readonly systemId: Id | null;
  readonly colour: string;
  readonly grip: boolean;
  /** 'none', or the id of another product than the system's own primer; here and below '' is the usual, or not said. */
  readonly primer?: Id | '';
  readonly preparation?: Preparation | '';
  readonly base?: TintBase | '';
  /** Strength of the tint in per cent of the colour's recipe; 100 where absent. */
  readonly tintPct?: number;
  readonly finish?: Finish | '';
}

export interface Slab {
  readonly id: Id;
  readonly name: string;
  readonly sheetId: Id;
  readonly corners: readonly SlabCorner[];
  /** Rise over run of the whole slab; 0 for level. */
  readonly slope: number;
  /** What its zones are unless a tag says otherwise. */
  readonly surface: Surface;
  /** What was found on site, by question: a choice, or a number in the question's unit. */
  readonly answers?: Readonly<Record<Id, string | number>>;
  /** Why it is coated although some answers say that it should not be, in the user's words, and which answers those were. */
  readonly coatAnyway?: {
    readonly reason: string;
    readonly over: Readonly<Record<Id, string | number>>;
  };
}

/** A point of a cut: at a shared corner, or a fraction of the way along the side that leaves a corner of its slab. */
export type CutPoint =
  | { readonly at: 'corner'; readonly cornerId: Id }
  | { readonly at: 'side'; readonly cornerId: Id; readonly t: number };

export interface Cut {
  readonly id: Id;
  readonly slabId: Id;
  readonly points: readonly CutPoint[];
}

/** Where is in sheet coordinates, how large in metres; a rectangle's angle is on the ground, counter-clockwise from east. */
export type VoidShape =
  | { readonly type: 'line'; readonly a: SheetPoint; readonly b: SheetPoint; readonly widthM: Metres }
  | { readonly type: 'circle'; readonly centre: SheetPoint; readonly radiusM: Metres }
  | {
      readonly type: 'rectangle';
      readonly centre: SheetPoint;
      readonly lengthM: Metres;
      readonly widthM: Metres;
      readonly angleRad: Radians;
    }
  | {
      readonly type: 'outline';
      readonly corners: ReadonlyArray<SheetPoint & { readonly via: SheetPoint | null }>;
    };

export interface Void {
  readonly id: Id;
  readonly name: string;
  readonly kind: VoidKind;
  readonly sheetId: Id;
  readonly shape: VoidShape;
}

/** What is said of one zone, pinned by a point inside it; what it does not say, the slab says. */
export interface Tag {
  readonly id: Id;
  readonly slabId: Id;
  readonly anchor: SheetPoint;
  readonly name: string;
  readonly surface: Partial<Surface>;
}

export interface Settings {
  readonly units: 'metric' | 'us';
  /** Thinning is given as a share of the paint, or as a share of the finished mix. */
  readonly thinningOf: 'paint' | 'mix';
  /** The rule that areas are measured for payment by, with one's own threshold; net where it is absent. */
  readonly measuringRule?: { readonly id: Id; readonly voidsUpToM2: SquareMetres | null };
  /** What a painter keeps to when paint is thinned: the dry film (the default) or the wet film. */
  readonly filmHeld?: 'dry' | 'wet';
  /** Litres to order: for a chance of running short (the default), or a percentage on top. */
  readonly orderBy?: 'chance' | 'percent';
  /** The rule that tax is worked out by, its rate in per cent, and whether it is rounded line by line. */
  readonly tax?: {
    readonly ruleId: Id;
    readonly ratePct: number;
    readonly per: 'total' | 'line';
    /** What is taxed: everything, or only what is bought. */
    readonly on: 'all' | 'materials';
  };
  /** Three letters of ISO 4217; money is shown without a name where absent. */
  readonly currency?: string;
}

/** The weather on the slab as somebody read it. */
export interface Reading {
  readonly id: Id;
  /** When, as the person's own clock says: ISO 8601 without a zone. */
  readonly at: string;
  readonly airC: number;
  readonly humidityPct: number;
  readonly slabC: number;
  readonly windKmH: number;
}

/** One hour of weather; what is not known is null. Wind as forecasts give it, 10 m up. */
export interface WeatherHour {
  /** The hour that begins then, local time without summer time: 2026-03-14T09:00. */
  readonly at: string;
  readonly airC: number;
  readonly humidityPct: number;
  readonly windKmH: number;
  readonly cloudPct: number | null;
  readonly rainMm: number | null;
  /** Sun on level ground. */
  readonly sunWPerM2: number | null;
}

/** The weather to plan by: hour after hour without a gap, at a place. */
export interface Weather {
  readonly name: string;
  /** Degrees, north and east positive. */
  readonly latitude: number;
  readonly longitude: number;
  /** Hours that the clock is ahead of UTC. */
  readonly zoneH: number;
  readonly hours: readonly WeatherHour[];
}

/** Where weather is, and how far its clock is ahead of UTC. */
export type Place = Pick<Weather, 'latitude' | 'longitude' | 'zoneH'>;

/** Paint used on a known area: a test patch, or a zone that is done. */
export interface Trial {
  readonly id: Id;
  readonly texture: Texture;
  /** Whether it was the first coat on the concrete, or a later one. */
  readonly coat: 'first' | 'later';
  readonly areaM2: SquareMetres;
  /** Neat paint, without thinner. */
  readonly usedL: Litres;
  /** Spreading rate of that paint at its film, as it was spread. */
  readonly rateM2PerL: number;
  /** Whether it went straight onto bare concrete, whose pores it filled. */
  readonly bare: boolean;
  /** Thinner in it, by volume of paint. */
  readonly thinning: number;
  readonly note: string;
}

/** The job: what a person entered, and nothing that follows from it. */
export interface Job {
  /** The version it was written by; one beyond what this program writes can be looked at, not changed. */
  readonly schema: number;
  readonly id: Id;
  readonly name: string;
  readonly note: string;
  readonly settings: Settings;
  readonly sheets: Readonly<Record<Id, Sheet>>;
  readonly corners: Readonly<Record<Id, Corner>>;
  readonly slabs: Readonly<Record<Id, Slab>>;
  readonly cuts: Readonly<Record<Id, Cut>>;
  readonly voids: Readonly<Record<Id, Void>>;
  readonly tags: Readonly<Record<Id, Tag>>;
  /** What was taped between corners. */
  readonly tapes?: Readonly<Record<Id, Tape>>;
  /** Default values that the user replaced, by key. */
  readonly values: Readonly<Record<string, number>>;
  /** The packs each product can be bought in, by the product's id; usual sizes where absent. Prices in integer cents. */
  readonly packs?: Readonly<Record<Id, readonly Pack[]>>;
  /** Paint used on known areas, which the texture multipliers learn from. */
  readonly trials?: Readonly<Record<Id, Trial>>;
  readonly readings?: Readonly<Record<Id, Reading>>;
  readonly weather?: Weather;
  /** Prices of all but paint, in integer cents, by what they are for. */
  readonly prices?: Readonly<Record<Id, number>>;
  readonly business?: Business;
  readonly customer?: Customer;
  readonly offer?: OfferName;
  /** Work as it was done. */
  readonly records?: Readonly<Record<Id, WorkRecord>>;
}

/** A pack that can be bought. */
export interface Pack {
  readonly sizeL: Litres;
  readonly priceCents: number | null;
}

/** Pictures that go with a job: inside the file, or a file beside it. */
export type JobImage =
  | { readonly type: string; readonly base64: string }
  | { readonly type: string; readonly file: string };

/** A job and its pictures, as saved. */
export interface JobFile {
  readonly job: Job;
  readonly images: Readonly<Record<Id, JobImage>>;
}

/** The surface of a slab nobody has described yet. */
export const DEFAULT_SURFACE: Surface = {
  texture: 'light-broom',
  traffic: 'foot',
  condition: 'bare',
  systemId: 'water-borne-paving',
  colour: '',
  grip: false,
};

/** A job with nothing in it. */
export const emptyJob = (id: Id, name: string): Job => ({
  schema: 1,
  id,
  name,
  note: '',
  settings: { units: 'metric', thinningOf: 'paint' },
  sheets: {},
  corners: {},
  slabs: {},
  cuts: {},
  voids: {},
  tags: {},
  values: {},
});
