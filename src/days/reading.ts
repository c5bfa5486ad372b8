import type { Coating } from '../coating/coating.ts';
import { thinnedSolids } from '../coating/formulas.ts';
import { SYSTEMS } from '../coating/systems/index.ts';
import type { CoatRole, Product } from '../coating/systems/system.ts';
import { valueByKey, valueIn } from '../coating/values.ts';
import type { Job, Reading } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { derive, leaf, type Quantity } from '../working/quantity.ts';
import { entered, type Source } from '../working/source.ts';
import * as formulas from './formulas.ts';
import { dayValue } from './values.ts';

/** How long until a coat may be coated over, by the climate that was read. */
export interface Recoat {
  readonly product: Product;
  readonly hours: Quantity;
  /** The least time that the water of its thickest film takes to leave; null for what holds none. */
  readonly firstDrying: Quantity | null;
}

/** What one reading of the weather on the slab means. */
export interface Verdict {
  readonly reading: Reading;
  readonly go: 'go' | 'care' | 'no';
  /** The one reason that decides. */
  readonly reason: string;
  readonly dewPoint: Quantity;
  readonly margin: Quantity;
  readonly humidityAtSlab: Quantity;
  readonly evaporation: Quantity;
  readonly evaporationMenzel: Quantity;
  readonly recoats: readonly Recoat[];
}

const constant = (name: string, symbol: string, value: number, unit: string, from: string): Quantity =>
  leaf(name, symbol, value, unit, { kind: 'derived', from });
const standardClimate: Source = {
  kind: 'from memory',
  of: tr`ISO 3270, standard climate of 23 °C and 50 %; wind of 5 km/h assumed here`,
};

/** Looks at one reading: dew point, margin, evaporation, go or no, and how long coats take. */
export function verdictOn(job: Job, coating: Coating, reading: Reading): Verdict {
  const t = leaf(tr`air`, 't', reading.airC, '°C', entered);
  const RH = leaf(tr`humidity`, 'RH', reading.humidityPct, '%', entered);
  const Ts = leaf(tr`slab`, 'Ts', reading.slabC, '°C', entered);
  const V = leaf(tr`wind at half a metre`, 'V', reading.windKmH, 'km/h', entered);
  const p = constant(tr`pressure at 0 °C`, 'p', 6.112, 'hPa', tr`Magnus form over water, WMO-No. 8`);
  const Td = derive(tr`dew point`, formulas.dewPoint, {
    g: derive(tr`logarithm`, formulas.dewLogarithm, { RH, t }),
  });
  const margin = derive(tr`slab above the dew point`, formulas.dewMargin, { Ts, Td });
  const saturated = (name: string, at: Quantity) =>
    derive(name, formulas.saturationPressure, { p, t: { ...at, symbol: 't' } });
  const es = saturated(tr`pressure at the slab`, Ts);
  const ea = saturated(tr`pressure in the air`, t);
  const evaporation = derive(tr`evaporation`, formulas.evaporation, {
    Tc: notBelow(Ts),
    RH,
    Ta: notBelow(t),
    V,
  });
  const found = {
    reading,
    dewPoint: Td,
    margin,
    humidityAtSlab: derive(tr`humidity at the slab`, formulas.humidityAtSurface, {
      ed: saturated(tr`pressure at the dew point`, Td),
      es,
    }),
    evaporation,
    evaporationMenzel: derive(tr`evaporation, older formula`, formulas.evaporationMenzel, {
      ec: es,
      RH,
      ea,
      V,
    }),
  };
  const decided = decide(job, coating, reading, margin.value, evaporation.value);
  // Where nothing may be coated the rules for drying do not hold either.
  const dry = decided.go === 'no' ? [] : recoats(job, coating, reading, evaporation);
  return { ...found, ...decided, recoats: dry };
}

/** The formula for evaporation ends at −18 °C; below it nothing is coated, and nothing evaporates to speak of. */
const notBelow = (q: Quantity): Quantity =>
  q.value >= -17 ? q : { ...q, name: tr`${q.name}, −17 °C at least`, value: -17 };

const degrees = (celsius: number): string => `${Number(celsius.toFixed(2))} °C`;

/** Go, care or no, and the first reason that decides. */
function decide(
  job: Job,
  coating: Coating,
  { airC, slabC, humidityPct }: Reading,
  margin: number,
  evaporation: number,
): Pick<Verdict, 'go' | 'reason'> {
  const coldest = valueByKey(job, 'ready.coldest').value;
  const hottest = valueByKey(job, 'ready.hottest').value;
  const least = dayValue(job, 'weather.margin').value;
  const damp = dayValue(job, 'weather.humidity').value;
  const quick = dayValue(job, 'weather.evaporation').value;
  const no = (reason: string) => ({ go: 'no', reason }) as const;
  if (margin < least) {
    return no(
      margin < 0
        ? tr`The slab is ${degrees(-margin)} below the dew point: dew settles on it.`
        : tr`The slab is only ${degrees(margin)} above the dew point, and ${degrees(least)} are wanted: dew would settle on it.`,
    );
  }
  if (Math.min(airC, slabC) < coldest) {
    return no(
      tr`It is ${degrees(Math.min(airC, slabC))}, and coats want ${degrees(coldest)} and more: they would not film.`,
    );
  }
  if (Math.max(airC, slabC) > hottest) {
    return no(
      tr`It is ${degrees(Math.max(airC, slabC))}, and coats want ${degrees(hottest)} or less: they would dry before they wet it.`,
    );
  }
  if (humidityPct > damp) {
    return no(
      tr`The air holds ${humidityPct} % humidity, and ${damp} % is the most: coats would hardly dry.`,
    );
  }
  const waterBorne = coating.paints.some((x) => x.product.carrier === 'water');
  if (waterBorne && evaporation > quick) {
    return {
      go: 'care',
      reason: tr`Water evaporates at ${evaporation.toFixed(2)} kg/m² an hour, so the wet edge is short: small bays, shade, early or late.`,
    };
  }
  return {
    go: 'go',
    reason: tr`Nothing read stands against coating now; look at the hours to come as well.`,
  };
}

function recoats(job: Job, coating: Coating, reading: Reading, evaporation: Quantity): Recoat[] {
  const products = new Map(coating.paints.map((x) => [x.product.id, x.product]));
  return [...products.values()].map((product): Recoat => {
    const hours =
      product.kind === 'two-pack' || product.carrier === 'solvent'
        ? derive(
            tr`recoat, ${product.name}`,
            product.kind === 'two-pack' ? formulas.cureByTemperature : formulas.dryByTemperature,
            {
              t1: dayValue(
                job,
                product.kind === 'two-pack' ? 'drying.recoat-two-pack' : 'drying.recoat-solvent',
              ),
              T1: leaf(tr`label’s temperature`, 'T1', 23, '°C', standardClimate),
              // Never shorter than the label.
              T2: leaf(tr`slab, 23 °C at most`, 'T2', Math.min(reading.slabC, 23), '°C', entered),
            },
          )
        : derive(tr`recoat, ${product.name}`, formulas.recoatByEvaporation, {
            t0: dayValue(job, 'drying.recoat-water'),
            Er: standardEvaporation,
            E: atLeast(evaporation, 0.005),
          });
    return { product, hours, firstDrying: firstDrying(job, coating, product, evaporation) };
  });
}

/** The least time in which the water of a product's thickest wet film leaves it. */
function firstDrying(job: Job, coating: Coating, product: Product, evaporation: Quantity): Quantity | null {
  if (product.carrier !== 'water') return null;
  const coats = coating.zones.flatMap((z) => z.coats.filter((c) => c.product.id === product.id));
  const thickest = coats.sort((a, b) => b.wetFilm.value - a.wetFilm.value)[0];
  const solids = thickest && solidsOf(product.id, thickest.role);
  if (!thickest || !solids) return null;
  return derive(tr`first drying, ${product.name}`, formulas.firstDrying, {
    W: thickest.wetFilm,
    VS: derive(tr`volume solids as thinned`, thinnedSolids, {
      VS0: valueIn(job, solids),
      T: thickest.thinning,
    }),
    // A kilogram of water on a square metre is a millimetre.
    E: { ...atLeast(evaporation, 0.005), unit: 'mm/h' },
  });
}

const solidsOf = (productId: string, role: CoatRole) =>
  SYSTEMS.flatMap((s) => s.coats).find((c) => c.product.id === productId && c.role === role)?.film?.solids;

/** Where nothing evaporates a coat takes for ever; a two-hundredth of a kilogram stands for that. */
const atLeast = (q: Quantity, least: number): Quantity => (q.value >= least ? q : { ...q, value: least });

/** Evaporation in the climate that labels are written for. */
const standardEvaporation = derive(tr`evaporation in the label’s climate`, formulas.evaporation, {
  Tc: leaf(tr`slab`, 'Tc', 23, '°C', standardClimate),
  RH: leaf(tr`humidity`, 'RH', 50, '%', standardClimate),
  Ta: leaf(tr`air`, 'Ta', 23, '°C', standardClimate),
  V: leaf(tr`wind`, 'V', 5, 'km/h', standardClimate),
});
