import { z } from 'zod';
import type { Problem } from '../problem.ts';
import { paperShape } from './paper-schema.ts';
import {
  BEYONDS,
  CONDITIONS,
  FINISHES,
  type Job,
  type JobFile,
  PREPARATIONS,
  TEXTURES,
  TINT_BASES,
  TRAFFICS,
  VOID_KINDS,
} from './types.ts';

/** Coordinates beyond this are damage, not a site: 1,000 km in metres, or a picture no machine holds. */
export const LARGEST_COORDINATE = 1e6;

const id = z.string().min(1).max(100);
const name = z.string().max(500);
const coordinate = z.number().min(-LARGEST_COORDINATE).max(LARGEST_COORDINATE);
const point = z.looseObject({ x: coordinate, y: coordinate });
const size = z.number().positive().max(1e5);
const map = <T extends z.ZodType>(value: T) => z.record(id, value);

const surface = z.looseObject({
  texture: z.enum(TEXTURES),
  traffic: z.enum(TRAFFICS),
  condition: z.enum(CONDITIONS),
  systemId: id.nullable(),
  colour: name,
  grip: z.boolean(),
  primer: z.string().max(100).optional(),
  preparation: z.enum([...PREPARATIONS, '']).optional(),
  base: z.enum([...TINT_BASES, '']).optional(),
  tintPct: z.number().min(0).max(400).optional(),
  finish: z.enum([...FINISHES, '']).optional(),
});

const number = z.number().min(-1e12).max(1e12);

const known = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('rectangle'), lengthM: size, widthM: size }),
  z.looseObject({ type: z.literal('points') }),
  z.looseObject({
    type: z.literal('tapes'),
    tapes: z
      .array(z.looseObject({ a: z.int().min(0).max(99), b: z.int().min(0).max(99), lengthM: size }))
      .max(5000),
  }),
]);

const fit = z.discriminatedUnion('kind', [
  z.looseObject({ kind: z.literal('metric') }),
  z.looseObject({
    kind: z.literal('scale'),
    lengths: z
      .array(z.looseObject({ a: point, b: point, lengthM: size }))
      .min(1)
      .max(100),
    reach: z.looseObject({ distanceM: size, reason: name }).nullable(),
    stretched: z.boolean().optional(),
    flat: z.boolean().optional(),
  }),
  z.looseObject({ kind: z.literal('drawing'), metresPerUnit: z.number().min(1e-6).max(1e6) }),
  z.looseObject({ kind: z.literal('page'), ratio: z.number().min(0.001).max(1e6) }),
  z.looseObject({
    kind: z.literal('marks'),
    marks: z.array(z.looseObject({ at: point, on: point.nullable() })).max(100),
    known,
    straights: z.array(z.array(point).min(2).max(100)).max(50),
  }),
  z.looseObject({
    kind: z.literal('straightened'),
    sheetId: id,
    toPhoto: z.array(number).length(9),
    lens: z
      .looseObject({ centre: point, radius: z.number().positive().max(1e6), k: z.number().min(-2).max(2) })
      .nullable(),
  }),
  z.looseObject({
    kind: z.literal('georeferenced'),
    latitude: z.number().min(-90).max(90),
    longitude: z.number().min(-180).max(180),
    from: z.enum(['walk', 'map']),
    deviationM: size.nullable(),
  }),
]);

const tape = z.discriminatedUnion('kind', [
  z.looseObject({ id, kind: z.literal('distance'), a: id, b: id, lengthM: size }),
  z.looseObject({ id, kind: z.literal('square'), at: id, a: id, b: id }),
  z.looseObject({
    id,
    kind: z.literal('offset'),
    a: id,
    b: id,
    corner: id,
    alongM: coordinate,
    offM: coordinate,
  }),
]);

const sheet = z.looseObject({
  id,
  name,
  picture: z
    .looseObject({
      imageId: id,
      widthPx: z.number().positive().max(1e6),
      heightPx: z.number().positive().max(1e6),
      page: z.int().min(1).max(1e5).optional(),
      password: z.string().max(500).optional(),
      drawn: z.boolean().optional(),
    })
    .nullable(),
  fit: fit.nullable(),
});

const slab = z.looseObject({
  id,
  name,
  sheetId: id,
  corners: z
    .array(
      z.looseObject({
        cornerId: id,
        via: point.nullable(),
        beyond: z.enum(BEYONDS).nullable(),
        faceUpM: z.number().min(0).max(100).optional(),
        exit: z.boolean().optional(),
      }),
    )
    .min(2),
  slope: z.number().min(0).max(2),
  surface,
  answers: z.record(id, z.union([z.string().max(100), z.number().min(-1e6).max(1e6)])).optional(),
  coatAnyway: z
    .looseObject({
      reason: z.string().min(1).max(5000),
      over: z.record(id, z.union([z.string().max(100), z.number()])),
    })
    .optional(),
});

const cutPoint = z.discriminatedUnion('at', [
  z.looseObject({ at: z.literal('corner'), cornerId: id }),
  z.looseObject({ at: z.literal('side'), cornerId: id, t: z.number().min(0).max(1) }),
]);

const shape = z.discriminatedUnion('type', [
  z.looseObject({ type: z.literal('line'), a: point, b: point, widthM: size }),
  z.looseObject({ type: z.literal('circle'), centre: point, radiusM: size }),
  z.looseObject({
    type: z.literal('rectangle'),
    centre: point,
    lengthM: size,
    widthM: size,
    angleRad: z.number().min(-100).max(100),
  }),
  z.looseObject({
    type: z.literal('outline'),
    corners: z.array(z.looseObject({ x: coordinate, y: coordinate, via: point.nullable() })).min(2),
  }),
]);

/** Hours since 1970 of a time that exists; NaN of one that does not. */
function hourOf(at: string): number {
  const ms = Date.parse(`${at}:00Z`);
  return new Date(ms || 0).toISOString().startsWith(at) ? ms / 3_600_000 : Number.NaN;
}

/** Weather as it may be kept: at most two years of hours. */
export const weather = z.looseObject({
  name,
  latitude: z.number().min(-90).max(90),
  longitude: z.number().min(-180).max(180),
  zoneH: z.number().min(-14).max(14),
  hours: z
    .array(
      z.looseObject({
        at: z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:00$/),
        airC: z.number().min(-90).max(70),
        humidityPct: z.number().min(0).max(100),
        windKmH: z.number().min(0).max(500),
        cloudPct: z.number().min(0).max(100).nullable(),
        rainMm: z.number().min(0).max(500).nullable(),
        sunWPerM2: z.number().min(0).max(1600).nullable(),
      }),
    )
    .min(1)
    .max(18_000)
    .refine(
      (hours) => hours.every(({ at }, i) => hourOf(at) === hourOf(hours[0]!.at) + i),
      'hours one after another',
    ),
});

const job = z.looseObject({
  schema: z.literal(1),
  id,
  name,
  note: z.string().max(5000),
  settings: z.looseObject({
    units: z.enum(['metric', 'us']),
    thinningOf: z.enum(['paint', 'mix']),
    measuringRule: z.looseObject({ id, voidsUpToM2: z.number().min(0).max(1e6).nullable() }).optional(),
    filmHeld: z.enum(['dry', 'wet']).optional(),
    orderBy: z.enum(['chance', 'percent']).optional(),
    tax: z
      .looseObject({
        ruleId: id,
        ratePct: z.number().min(0).max(100),
        per: z.enum(['total', 'line']),
        on: z.enum(['all', 'materials']),
      })
      .optional(),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/)
      .optional(),
  }),
  sheets: map(sheet),
  corners: map(z.looseObject({ id, sheetId: id, x: coordinate, y: coordinate })),
  slabs: map(slab),
  cuts: map(z.looseObject({ id, slabId: id, points: z.array(cutPoint).min(2) })),
  voids: map(z.looseObject({ id, name, kind: z.enum(VOID_KINDS), sheetId: id, shape })),
  tags: map(z.looseObject({ id, slabId: id, anchor: point, name, surface: surface.partial() })),
  tapes: map(tape).optional(),
  values: z.record(z.string().max(100), z.number().min(-1e9).max(1e9)),
  packs: z
    .record(
      id,
      z
        .array(
          z.looseObject({
            sizeL: z.number().min(0.001).max(1000),
            priceCents: z.int().min(0).max(1e9).nullable(),
          }),
        )
        .min(1)
        .max(50),
    )
    .optional(),
  trials: map(
    z.looseObject({
      id,
      texture: z.enum(TEXTURES),
      coat: z.enum(['first', 'later']),
      areaM2: z.number().positive().max(1e6),
      usedL: z.number().positive().max(1e6),
      rateM2PerL: z.number().positive().max(1e4),
      bare: z.boolean(),
      thinning: z.number().min(0).max(2),
      note: name,
    }),
  ).optional(),
  readings: map(
    z.looseObject({
      id,
      at: z.string().max(40),
      airC: z.number().min(-60).max(70),
      humidityPct: z.number().min(1).max(100),
      slabC: z.number().min(-60).max(100),
      windKmH: z.number().min(0).max(400),
    }),
  ).optional(),
  weather: weather.optional(),
  prices: z.record(id, z.int().min(0).max(1e9)).optional(),
  ...paperShape,
});

const image = z.union([
  z.looseObject({ type: z.string().max(100), base64: z.string() }),
  z.looseObject({ type: z.string().max(100), file: z.string().max(500) }),
]);

/** The shape of a saved job. Fields it does not know are kept. */
export const jobFileSchema = z.looseObject({ job, images: map(image) });

/** What the schema accepts is what the types say; a drift between the two fails to compile here. */
export const asJobFile = (value: z.infer<typeof jobFileSchema>): JobFile => value as JobFile;

const fields = job.shape as unknown as Readonly<Record<string, z.ZodType>>;

/** The maps of entities; of these only what changed is looked at. */
const MAPS: Readonly<Record<string, z.ZodType>> = Object.fromEntries(
  Object.entries(fields).flatMap(([key, schema]) => {
    const inner = schema instanceof z.ZodOptional ? schema.unwrap() : schema;
    return inner instanceof z.ZodRecord ? [[key, inner]] : [];
  }),
);

/** The first thing that changed between two jobs and could not be read again from a file. */
export function findShapeProblem(now: Job, before: Job): Problem | null {
  const was = before as unknown as Readonly<Record<string, unknown>>;
  for (const [key, value] of Object.entries(now)) {
    const schema = fields[key];
    if (value === was[key] || !schema) continue;
    const old = was[key];
    const map = MAPS[key];
    const changed =
      map && isMap(value) && isMap(old)
        ? Object.fromEntries(Object.entries(value).filter(([id, entity]) => old[id] !== entity))
        : value;
    const read = (map ?? schema).safeParse(changed);
    if (read.success) continue;
    const { path, message } = read.error.issues[0]!;
    return { code: 'job/field', path: ['job', key, ...path].join('.'), expected: message };
  }
  return null;
}

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
