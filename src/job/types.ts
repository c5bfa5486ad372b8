import type { Litres, Metres, Radians, SheetPoint, SquareMetres } from '../units/types.ts';

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

/** Concrete as it is found. */
export const CONDITIONS = ['bare', 'painted'] as const;
export type Condition = (typeof CONDITIONS)[number];

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

/** What takes sheet coordinates to metres on the ground. */
export type Fit =
  | { readonly kind: 'metric' }
  | { readonly kind: 'scale'; readonly lengths: readonly KnownLength[]; readonly reach: FitReach | null };

/** Something to trace over, with its own coordinates: pixels, y down, for a picture; metres, y up, for a grid. */
export interface Sheet {
  readonly id: Id;
  readonly name: string;
  readonly picture: { readonly imageId: Id; readonly widthPx: number; readonly heightPx: number } | null;
  readonly fit: Fit | null;
}

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
}

/** The job: what a person entered, and nothing that follows from it. */
export interface Job {
  readonly schema: 1;
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
  /** Default values that the user replaced, by key. */
  readonly values: Readonly<Record<string, number>>;
  /** The packs each product can be bought in, by the product's id; usual sizes where absent. Prices in integer cents. */
  readonly packs?: Readonly<Record<Id, readonly Pack[]>>;
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
