import type { Finish, Job, TintBase } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import * as formulas from './formulas.ts';
import { lossOf, multiplierOf } from './multipliers.ts';
import {
  COAT_NAMES,
  type CoatRole,
  type Product,
  type System,
  type SystemCoat,
  THINNER_NAMES,
} from './systems/system.ts';
import { BASE_NAMES, FINISH_NAMES, isRough, valueByKey, valueIn } from './values.ts';

/** How a product is to be coloured; empty for what has no colour. */
export interface Tint {
  readonly colour: string;
  readonly base: TintBase | null;
  /** Per cent of the colour's recipe. */
  readonly strengthPct: number;
  readonly finish: Finish | null;
}

/** One coat on one zone. */
export interface CoatNeed extends Tint {
  readonly role: CoatRole;
  readonly product: Product;
  /** Whether it is the first thing on the concrete. */
  readonly first: boolean;
  /** Theoretical spreading rate of the paint without thinner. */
  readonly rate: Quantity;
  readonly multiplier: Quantity;
  /** How far the multiplier may be off, deviation of its logarithm. */
  readonly spread: Quantity;
  readonly thinning: Quantity;
  readonly paint: Quantity;
  readonly thinner: Quantity | null;
  readonly additive: Quantity | null;
  readonly wetFilm: Quantity;
  /** Null where it leaves no film. */
  readonly dryFilm: Quantity | null;
  /** Organic vapour of what is in the bucket. */
  readonly voc: Quantity;
  /** Why the coat is as it is, where a rule decided. */
  readonly reasons: readonly string[];
}

/** Where in its system a coat stands. */
export interface Place {
  readonly first: boolean;
  readonly last: boolean;
  readonly bare: boolean;
  readonly primed: boolean;
}

const derived = (from: string): Source => ({ kind: 'derived', from });

/** What one coat of a system takes on a zone. */
export function coatNeed(
  job: Job,
  zone: ZoneTakeoff,
  system: System,
  coat: SystemCoat,
  place: Place,
): CoatNeed {
  const { texture } = zone.surface;
  const name = coat.role === 'primer' ? tr`primer` : COAT_NAMES[coat.role];
  const { T, reasons } = thinning(job, coat, place);
  const rate = spreadingRate(job, coat);
  const wetHeld = job.settings.filmHeld === 'wet' && T.value > 0;
  const S = wetHeld
    ? derive(tr`spreading rate, wet film held`, formulas.rateHoldingWet, { S0: rate, T })
    : rate;
  const { k, spread } = multiplierOf(job, texture, place.first ? 'first' : 'later');
  const pores = place.first && place.bare && coat.film !== null;
  const paint = derive(tr`paint, ${name}`, formulas.paintLitres, {
    A: zone.coatedArea,
    k,
    S,
    d: pores
      ? valueByKey(job, 'loss.dead-volume')
      : leaf(
          tr`pores to fill`,
          'd',
          0,
          'mL/m²',
          derived(tr`only the first coat on bare concrete fills pores`),
        ),
    T,
    L: lossOf(job, texture),
  });
  if (coat.role === 'primer') reasons.push(system.primerReason);
  const grip = gripOf(job, zone, coat, place, paint);
  return {
    role: coat.role,
    product: coat.product,
    first: place.first,
    ...tintOf(coat, zone),
    rate,
    multiplier: k,
    spread,
    thinning: T,
    paint,
    thinner:
      T.value > 0
        ? derive(THINNER_NAMES[coat.product.thinner], formulas.thinnerLitres, { P: paint, T })
        : null,
    additive: grip.additive,
    ...films(job, coat, S, T, wetHeld),
    voc: derive(tr`VOC in the bucket`, formulas.thinnedVoc, {
      V0: valueIn(job, coat.product.voc),
      T,
      r: valueIn(job, coat.product.thinnerVoc),
    }),
    reasons: [...reasons, ...grip.reasons],
  };
}

const tintOf = (coat: SystemCoat, { surface }: ZoneTakeoff): Tint =>
  coat.product.kind === 'primer' || coat.product.kind === 'sealer'
    ? { colour: '', base: null, strengthPct: 100, finish: null }
    : {
        colour: surface.colour,
        base: surface.base || null,
        strengthPct: surface.tintPct ?? 100,
        finish: surface.finish || null,
      };

/** The rate stated on the tin where there is one, else from solids and film. */
function spreadingRate(job: Job, coat: SystemCoat): Quantity {
  const stated = valueIn(job, coat.rate);
  if (coat.film === null || stated.value > 0) {
    return derive(tr`spreading rate`, formulas.statedRate, { R: stated });
  }
  return derive(tr`spreading rate`, formulas.spreadingRate, {
    VS: valueIn(job, coat.film.solids),
    D: valueIn(job, coat.film.dry),
  });
}

/** Wet film to comb, and the dry film it leaves. */
function films(
  job: Job,
  coat: SystemCoat,
  S: Quantity,
  T: Quantity,
  wetHeld: boolean,
): { readonly wetFilm: Quantity; readonly dryFilm: Quantity | null } {
  const atRate = derive(tr`wet film`, formulas.wetFilmAtRate, { S, T });
  if (coat.film === null) return { wetFilm: atRate, dryFilm: null };
  const VS = valueIn(job, coat.film.solids);
  if (wetHeld || valueIn(job, coat.rate).value > 0) {
    return { wetFilm: atRate, dryFilm: derive(tr`dry film`, formulas.dryFilm, { WFT: atRate, VS, T }) };
  }
  const D = valueIn(job, coat.film.dry);
  return { wetFilm: derive(tr`wet film`, formulas.wetFilm, { D, T, VS }), dryFilm: D };
}

/**
 * Whether a zone gets its grip additive only from its slab, while its own texture, said in its own description, is rough:
 * nobody asked for it there.
 */
export function gripOnlyInherited(job: Job, zone: ZoneTakeoff): boolean {
  const own = zone.tagId === null ? undefined : job.tags[zone.tagId]?.surface;
  const { texture, grip } = zone.surface;
  return grip && isRough(texture) && own?.texture !== undefined && own.grip === undefined;
}

/** Grip additive goes into the last coat that leaves a film, and on a rough surface only where it is asked for there. */
function gripOf(
  job: Job,
  zone: ZoneTakeoff,
  coat: SystemCoat,
  place: Place,
  paint: Quantity,
): { readonly additive: Quantity | null; readonly reasons: readonly string[] } {
  const { grip } = zone.surface;
  if (!grip || !place.last) return { additive: null, reasons: [] };
  if (coat.film === null) {
    return { additive: null, reasons: [tr`Grip additive needs a film to hold it; a sealer leaves none.`] };
  }
  if (gripOnlyInherited(job, zone)) {
    return {
      additive: null,
      reasons: [tr`No grip additive: it is asked for on the slab, not in this rougher zone.`],
    };
  }
  const d = valueByKey(job, 'grip.dose');
  return { additive: derive(tr`grip additive`, formulas.additiveGrams, { P: paint, d }), reasons: [] };
}

/** Thinner by volume of paint, and why: only a first coat that goes straight onto bare concrete is thinned. */
function thinning(job: Job, coat: SystemCoat, place: Place): { T: Quantity; reasons: string[] } {
  const none = (why: string) => leaf(tr`thinning`, 'T', 0, '1', derived(why));
  if (!coat.thinning) return { T: none(tr`this coat goes on neat`), reasons: [] };
  const why = place.primed
    ? tr`Over a primer every coat goes on neat.`
    : tr`Thinning helps paint into bare concrete; over old paint it goes on neat.`;
  if (place.primed || !place.bare) return { T: none(why), reasons: [why] };
  const x = valueIn(job, coat.thinning);
  const share = job.settings.thinningOf === 'mix' ? formulas.thinningOfMix : formulas.thinningOfPaint;
  return { T: derive(tr`thinning, by volume of paint`, share, { x }), reasons: [] };
}

/** What a product and its colour are called together; what may not be mixed up has another name. */
export const tintName = (t: Tint): string =>
  [
    t.colour,
    t.base ? tr`${BASE_NAMES[t.base]} base` : '',
    t.strengthPct === 100 ? '' : tr`${t.strengthPct} % tint`,
    t.finish ? FINISH_NAMES[t.finish] : '',
  ]
    .filter(Boolean)
    .join(', ');

/** The part of a coat's paint that goes on by brush; asks for the brushed band, which is worked out when it is looked at. */
export const brushedPaint = (zone: ZoneTakeoff, coat: CoatNeed): Quantity =>
  derive(tr`of it by brush`, formulas.brushedLitres, {
    P: coat.paint,
    b: zone.brushArea,
    U: zone.facesUp,
    A: zone.coatedArea,
  });
