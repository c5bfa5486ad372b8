import type { Id, Job } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { derive, leaf, type Quantity, total } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import * as formulas from './formulas.ts';
import { systemById } from './systems/index.ts';
import type { CoatRole, Product, System, SystemCoat } from './systems/system.ts';
import { isRough, valueByKey, valueIn } from './values.ts';

/** One coat on one zone. */
export interface CoatNeed {
  readonly role: CoatRole;
  readonly product: Product;
  readonly colour: string;
  readonly paint: Quantity;
  readonly thinner: Quantity | null;
  readonly additive: Quantity | null;
  readonly wetFilm: Quantity;
  readonly dryFilm: Quantity;
  /** Why the coat is as it is, where a rule decided. */
  readonly reasons: readonly string[];
}

/** What one zone takes. */
export interface ZoneCoating {
  readonly zoneId: Id;
  readonly system: System | null;
  readonly nap: Quantity;
  readonly coats: readonly CoatNeed[];
  readonly etch: Quantity | null;
  readonly etchWater: Quantity | null;
  readonly preparation: string;
}

/** One thing to have on site, over all zones. */
export interface MaterialTotal {
  /** The product's id where it is paint; else empty. */
  readonly productId: Id;
  readonly material: string;
  readonly colour: string;
  readonly quantity: Quantity;
}

export interface Coating {
  readonly zones: readonly ZoneCoating[];
  /** Paint by product and colour, then thinners, etch, its water, grip additive. */
  readonly paints: readonly MaterialTotal[];
  readonly others: readonly MaterialTotal[];
}

const summed: Source = { kind: 'derived', from: 'summed over zones and coats' };

/** Works out each zone's coats and the totals by product. */
export function coating(job: Job, zones: readonly ZoneTakeoff[]): Coating {
  const each = zones.map((zone) => zoneCoating(job, zone));
  return { zones: each, ...totals(zones, each) };
}

function zoneCoating(job: Job, zone: ZoneTakeoff): ZoneCoating {
  const { texture, condition, traffic, systemId } = zone.surface;
  const system = systemById(systemId);
  const nap = valueByKey(job, `texture.${texture}.nap`);
  const coated = system !== null && zone.netArea.value > 0;
  const bare = condition === 'bare';
  if (!coated) {
    return {
      zoneId: zone.id,
      system,
      nap,
      coats: [],
      etch: null,
      etchWater: null,
      preparation: 'not coated',
    };
  }
  const inUse = system.coats.filter((c) => c.when === 'always' || traffic !== 'foot');
  const primed = inUse.some((c) => c.role === 'primer');
  const etch = bare
    ? derive('citric acid', formulas.etchKilograms, {
        A: zone.coatedArea,
        e: valueByKey(job, 'etch.coverage'),
      })
    : null;
  return {
    zoneId: zone.id,
    system,
    nap,
    coats: inUse.map((coat, i) =>
      coatNeed(job, zone, coat, { first: i === 0, last: i === inUse.length - 1, bare, primed }),
    ),
    etch,
    etchWater:
      etch && derive('water for the etch', formulas.etchWater, { K: etch, w: valueByKey(job, 'etch.water') }),
    preparation: bare ? 'etch, rinse and let dry' : 'abrade and wash; painted concrete is not etched',
  };
}

interface Place {
  readonly first: boolean;
  readonly last: boolean;
  readonly bare: boolean;
  readonly primed: boolean;
}

function coatNeed(job: Job, zone: ZoneTakeoff, coat: SystemCoat, place: Place): CoatNeed {
  const { texture, grip, colour } = zone.surface;
  const S = derive('spreading rate', formulas.spreadingRate, {
    VS: valueIn(job, coat.solids),
    D: valueIn(job, coat.film),
  });
  const paint = derive(
    `paint, ${coat.role === 'primer' ? 'primer' : `${coat.role} coat`}`,
    formulas.paintLitres,
    {
      A: zone.coatedArea,
      k: valueByKey(job, `texture.${texture}.${place.first ? 'first' : 'later'}`),
      S,
      L: valueByKey(job, isRough(texture) ? 'loss.rough' : 'loss.smooth'),
    },
  );
  const { T, reasons } = thinning(job, coat, place);
  const thinned = T.value > 0;
  const film = valueIn(job, coat.film);
  const solids = valueIn(job, coat.solids);
  if (coat.role === 'primer') reasons.push(systemById(zone.surface.systemId)?.primerReason ?? '');
  return {
    role: coat.role,
    product: coat.product,
    colour: coat.role === 'primer' ? '' : colour,
    paint,
    thinner: thinned ? derive(coat.product.thinner, formulas.thinnerLitres, { P: paint, T }) : null,
    additive:
      grip && place.last
        ? derive('grip additive', formulas.additiveGrams, { P: paint, d: valueByKey(job, 'grip.dose') })
        : null,
    wetFilm: derive('wet film', formulas.wetFilm, { D: film, T, VS: solids }),
    dryFilm: film,
    reasons,
  };
}

/** Thinner by volume of paint, and why: only a first coat that goes straight onto bare concrete is thinned. */
function thinning(job: Job, coat: SystemCoat, place: Place): { T: Quantity; reasons: string[] } {
  const neat = (why: string) => ({
    T: leaf('thinning', 'T', 0, '1', { kind: 'derived', from: why }),
    reasons: [why],
  });
  if (!coat.thinning)
    return {
      T: leaf('thinning', 'T', 0, '1', { kind: 'derived', from: 'this coat goes on neat' }),
      reasons: [],
    };
  if (place.primed) return neat('Over a primer every coat goes on neat.');
  if (!place.bare) return neat('Thinning helps paint into bare concrete; over old paint it goes on neat.');
  const x = valueIn(job, coat.thinning);
  if (job.settings.thinningOf === 'mix') {
    return { T: derive('thinning, by volume of paint', formulas.thinningOfMix, { x }), reasons: [] };
  }
  return { T: derive('thinning, by volume of paint', formulas.thinningOfPaint, { x }), reasons: [] };
}

function totals(
  zones: readonly ZoneTakeoff[],
  each: readonly ZoneCoating[],
): Pick<Coating, 'paints' | 'others'> {
  const groups = new Map<
    string,
    {
      productId: Id;
      material: string;
      colour: string;
      symbol: string;
      unit: string;
      parts: Quantity[];
    }
  >();
  const add = (
    material: string,
    colour: string,
    q: Quantity | null,
    zone: ZoneTakeoff,
    productId: Id = '',
  ) => {
    if (!q) return;
    const key = `${productId} ${material} ${colour}`;
    const group = groups.get(key) ?? {
      productId,
      material,
      colour,
      symbol: q.symbol,
      unit: q.unit,
      parts: [],
    };
    group.parts.push({ ...q, name: `${zone.name}: ${q.name}` });
    groups.set(key, group);
  };
  each.forEach((zoneCoats, i) => {
    const zone = zones[i]!;
    for (const coat of zoneCoats.coats) {
      add(coat.product.name, coat.colour, coat.paint, zone, coat.product.id);
      add(coat.thinner?.name ?? '', '', coat.thinner, zone);
      add('grip additive', '', coat.additive, zone);
    }
    add('citric acid', '', zoneCoats.etch, zone);
    add('water for the etch', '', zoneCoats.etchWater, zone);
  });
  const list = [...groups.values()].map(
    ({ productId, material, colour, symbol, unit, parts }): MaterialTotal => ({
      productId,
      material,
      colour,
      quantity: total(material, symbol, unit, parts, summed),
    }),
  );
  return { paints: list.filter((t) => t.productId !== ''), others: list.filter((t) => t.productId === '') };
}
