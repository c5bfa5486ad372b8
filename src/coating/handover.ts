import type { RecordedWork, WorkRecord } from '../job/paper-types.ts';
import type { Id, Job } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import type { Litres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Coating } from './coating.ts';
import { PRODUCTS } from './systems/index.ts';
import { valueIn } from './values.ts';

/** What was done, as a person says it of a slab. */
export const WORK_WORDS: Readonly<Record<RecordedWork, string>> = {
  wash: tr`washed`,
  etch: tr`etched`,
  grind: tr`ground`,
  abrade: tr`abraded`,
  mask: tr`masked`,
  coat: tr`coated`,
  other: tr`other work`,
};

/** A product by its id, also one that the job does not use any more. */
export const productName = (id: Id): string => PRODUCTS.find((p) => p.id === id)?.name ?? id;

/** Records in the order of the work. */
export const recordsOf = (job: Job): WorkRecord[] =>
  Object.values(job.records ?? {}).sort((a, b) =>
    a.on === b.on ? (a.id < b.id ? -1 : 1) : a.on < b.on ? -1 : 1,
  );

/** Paint that was worked out, and what was written down as used. */
export interface PaintUsed {
  readonly productId: Id;
  readonly name: string;
  /** Without what is kept back or may run over. */
  readonly plannedL: Litres;
  /** Null where nothing was written down. */
  readonly usedL: Litres | null;
  readonly batches: readonly string[];
}

/** Planned beside used, product by product; colours of one product together, as records do not tell them apart. */
export function paintUsed(job: Job, coating: Coating): PaintUsed[] {
  const records = recordsOf(job);
  const ids = new Set([
    ...coating.paints.map((p) => p.product.id),
    ...records.map((r) => r.productId).filter(Boolean),
  ]);
  return [...ids].map((productId) => {
    const own = records.filter((r) => r.productId === productId);
    const litres = own.flatMap((r) => (r.usedL === null ? [] : [r.usedL]));
    const planned = coating.paints.filter((p) => p.product.id === productId);
    return {
      productId,
      name: productName(productId),
      plannedL: planned.reduce((sum, p) => sum + p.quantity.value, 0),
      usedL: litres.length === 0 ? null : litres.reduce((sum, l) => sum + l, 0),
      batches: [...new Set(own.map((r) => r.batch.trim()).filter(Boolean))],
    };
  });
}

/** When a zone was coated last, and after how many years it is expected to want another coat. */
export interface NextCoat {
  readonly zoneId: Id;
  readonly zone: string;
  readonly system: string;
  /** YYYY-MM-DD; null where no coat was written down. */
  readonly coatedOn: string | null;
  readonly years: Quantity;
}

/** The next coat of every zone that is coated. */
export function nextCoats(job: Job, zones: readonly ZoneTakeoff[], coating: Coating): NextCoat[] {
  const coats = recordsOf(job).filter((r) => r.work === 'coat');
  return coating.zones.flatMap((z, i): NextCoat[] => {
    if (!z.system || z.coats.length === 0) return [];
    const zone = zones[i]!;
    // A primer does not begin the years: only what goes on last.
    const last = z.coats[z.coats.length - 1]!.product.id;
    const own = coats.filter(
      (r) => (r.slabId === '' || r.slabId === zone.slabId) && (r.productId === '' || r.productId === last),
    );
    return [
      {
        zoneId: zone.id,
        zone: zone.name,
        system: z.system.name,
        coatedOn: own[own.length - 1]?.on ?? null,
        years: valueIn(job, z.system.repaint),
      },
    ];
  });
}

/** How to look after a coated slab. Common practice, no source; the paint maker's own words go before them. */
export function careOf(zones: readonly ZoneTakeoff[], coating: Coating): string[] {
  const coated = zones.filter((_, i) => coating.zones[i]!.coats.length > 0);
  if (coated.length === 0) return [];
  const film = coating.zones.some((z) => z.coats.some((c) => c.dryFilm !== null));
  const cars = coated.some((z) => z.surface.traffic !== 'foot');
  const grip = coating.zones.some((z) => z.coats.some((c) => c.additive));
  return [
    tr`Sweep it; wash it with water and a neutral detergent and a soft broom twice a year. No solvent, no acid, no bleach.`,
    tr`Wipe up oil, fuel, fertiliser and leaves soon: what stands on a coat for days marks it.`,
    ...(film
      ? [
          tr`A pressure washer only with a fan nozzle, 300 mm away and at low pressure: a jet lifts a coat at its edges.`,
        ]
      : []),
    ...(cars
      ? [
          tr`Hot tyres can pull at a coat in its first weeks: roll on slowly, and do not turn the wheels while standing.`,
        ]
      : []),
    tr`Felt or rubber under chairs, planters and stands; plastic mats and pots trap damp and leave rings.`,
    tr`No de-icing salt where something else will do; plastic shovels for snow.`,
    ...(grip
      ? [tr`Grip wears before the coat does: look at ramps and steps every year, and after every wash.`]
      : []),
    tr`Look at it once a year: mend chips and lifted edges while they are small, with paint of the same batch where some was kept.`,
    tr`A wet coat can be slippery, and a worn one more so: what is walked on in the rain wants to be looked at first.`,
  ];
}
