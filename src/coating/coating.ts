import type { Id, Job, Preparation } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { kept } from '../working/kept.ts';
import { derive, type Quantity, total } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import { type CoatNeed, coatNeed, type Tint, tintName } from './coat-need.ts';
import * as formulas from './formulas.ts';
import { isBare, preparationOf } from './preparation.ts';
import { SYSTEMS, systemById } from './systems/index.ts';
import type { Product, System, SystemCoat } from './systems/system.ts';
import { THINNER_NAMES } from './systems/system.ts';
import { valueByKey } from './values.ts';

/** What one zone takes. */
export interface ZoneCoating {
  readonly zoneId: Id;
  readonly system: System | null;
  readonly nap: Quantity;
  readonly coats: readonly CoatNeed[];
  /** Null where it is not coated. */
  readonly preparation: Preparation | null;
  readonly etch: Quantity | null;
  readonly etchWater: Quantity | null;
  /** Water to wet and rinse what is etched. */
  readonly rinse: Quantity | null;
  readonly neutraliser: Quantity | null;
}

/** One product in one colour over all zones. */
export interface PaintTotal extends Tint {
  readonly product: Product;
  /** Colour, base, strength and finish in words. */
  readonly tint: string;
  readonly quantity: Quantity;
  /** What it is made of: which coat of which zone, by index of the takeoff. */
  readonly parts: ReadonlyArray<{ readonly zone: number; readonly coat: CoatNeed }>;
}

/** Thinner, etch, its water, soda, grip additive. */
export interface MaterialTotal {
  readonly key: Id;
  readonly material: string;
  readonly quantity: Quantity;
}

export interface Coating {
  readonly zones: readonly ZoneCoating[];
  readonly paints: readonly PaintTotal[];
  readonly others: readonly MaterialTotal[];
}

const summed: Source = { kind: 'derived', from: tr`summed over zones and coats` };

/** Works out each zone's coats and the totals by product. */
export function coating(job: Job, zones: readonly ZoneTakeoff[]): Coating {
  const each = zones.map((zone) => coatingOf(job, zone));
  return { zones: each, paints: paintTotals(zones, each), others: otherTotals(zones, each) };
}

const remembered = new WeakMap<ZoneTakeoff, ReturnType<typeof kept<ZoneCoating>>>();

/** A zone's coats, the same ones while neither it nor what they are worked out from has changed. */
function coatingOf(job: Job, zone: ZoneTakeoff): ZoneCoating {
  const last = remembered.get(zone) ?? kept<ZoneCoating>();
  remembered.set(zone, last);
  return last([job.values, job.settings, job.trials, job.tags], () => zoneCoating(job, zone));
}

function zoneCoating(job: Job, zone: ZoneTakeoff): ZoneCoating {
  const { surface } = zone;
  const system = systemById(surface.systemId);
  const nap = valueByKey(job, `texture.${surface.texture}.nap`);
  if (system === null || !(zone.netArea.value > 0)) {
    return {
      zoneId: zone.id,
      system,
      nap,
      coats: [],
      preparation: null,
      etch: null,
      etchWater: null,
      rinse: null,
      neutraliser: null,
    };
  }
  const inUse = coatsInUse(system, zone);
  const primed = inUse[0]?.role === 'primer';
  const bare = isBare(surface.condition);
  const preparation = preparationOf(surface, system);
  return {
    zoneId: zone.id,
    system,
    nap,
    coats: inUse.map((coat, i) =>
      coatNeed(job, zone, system, coat, { first: i === 0, last: i === inUse.length - 1, bare, primed }),
    ),
    preparation,
    ...etchOf(job, zone, preparation === 'etch'),
  };
}

/** The coats a zone gets: the system's, with the primer that was asked for in place of its own. */
function coatsInUse(system: System, { surface }: ZoneTakeoff): readonly SystemCoat[] {
  const own = system.coats.filter((c) => c.when === 'always' || surface.traffic !== 'foot');
  if (!surface.primer) return own;
  const other = SYSTEMS.flatMap((s) => s.coats).find(
    (c) => c.role === 'primer' && c.product.id === surface.primer,
  );
  return [...(other ? [other] : []), ...own.filter((c) => c.role !== 'primer')];
}

function etchOf(
  job: Job,
  zone: ZoneTakeoff,
  etched: boolean,
): Pick<ZoneCoating, 'etch' | 'etchWater' | 'rinse' | 'neutraliser'> {
  if (!etched) return { etch: null, etchWater: null, rinse: null, neutraliser: null };
  const etch = derive(tr`citric acid`, formulas.etchKilograms, {
    A: zone.coatedArea,
    e: valueByKey(job, 'etch.coverage'),
  });
  return {
    etch,
    etchWater: derive(tr`water for the etch`, formulas.etchWater, {
      K: etch,
      w: valueByKey(job, 'etch.water'),
    }),
    rinse: derive(tr`water to wet and rinse`, formulas.rinseWater, {
      A: zone.coatedArea,
      w: valueByKey(job, 'etch.prewet'),
      q: valueByKey(job, 'etch.rinse'),
    }),
    neutraliser: derive(tr`sodium bicarbonate`, formulas.neutraliserKilograms, {
      K: etch,
      b: valueByKey(job, 'etch.neutraliser'),
    }),
  };
}

/** Litres by product, colour, base, strength and finish: what may go into one bucket. */
function paintTotals(zones: readonly ZoneTakeoff[], each: readonly ZoneCoating[]): PaintTotal[] {
  const groups = new Map<string, Array<{ zone: number; coat: CoatNeed }>>();
  each.forEach((z, zone) => {
    for (const coat of z.coats) {
      // A colour is the same however its name is spaced and whatever its capitals.
      const colour = coat.colour.trim().toLowerCase().replace(/\s+/g, ' ');
      const key = JSON.stringify([coat.product.id, colour, coat.base, coat.strengthPct, coat.finish]);
      groups.set(key, [...(groups.get(key) ?? []), { zone, coat }]);
    }
  });
  return [...groups.values()].map((parts): PaintTotal => {
    const { product, colour, base, strengthPct, finish } = parts[0]!.coat;
    const named = parts.map((p) => ({
      ...p.coat.paint,
      name: `${zones[p.zone]!.name}: ${p.coat.paint.name}`,
    }));
    const quantity = total(product.name, 'P', 'L', named, summed);
    return { product, colour, base, strengthPct, finish, tint: tintName(parts[0]!.coat), quantity, parts };
  });
}

function otherTotals(zones: readonly ZoneTakeoff[], each: readonly ZoneCoating[]): MaterialTotal[] {
  const groups = new Map<Id, { material: string; parts: Quantity[] }>();
  const add = (key: Id, material: string, q: Quantity | null, zone: number) => {
    if (!q) return;
    const group = groups.get(key) ?? { material, parts: [] };
    group.parts.push({ ...q, name: `${zones[zone]!.name}: ${q.name}` });
    groups.set(key, group);
  };
  each.forEach((z, zone) => {
    for (const coat of z.coats) {
      const { thinner } = coat.product;
      const name = thinner === 'water' ? tr`water to thin with` : THINNER_NAMES[thinner];
      add(`thinner.${thinner}`, name, coat.thinner, zone);
      add('grip', tr`grip additive`, coat.additive, zone);
    }
    add('etch', tr`citric acid`, z.etch, zone);
    add('etch-water', tr`water for the etch`, z.etchWater, zone);
    add('rinse', tr`water to wet and rinse`, z.rinse, zone);
    add('neutraliser', tr`sodium bicarbonate`, z.neutraliser, zone);
  });
  return [...groups].map(([key, { material, parts }]) => {
    const { symbol, unit } = parts[0]!;
    return { key, material, quantity: total(material, symbol, unit, parts, summed) };
  });
}
