import { create, erfDependencies, type FactoryFunctionMap } from 'mathjs/number';
import type { PaintTotal } from '../coating/coating.ts';
import { valueByKey } from '../coating/values.ts';
import type { Job } from '../job/types.ts';
import type { ZoneTakeoff } from '../takeoff/zone.ts';
import type { Litres } from '../units/types.ts';
import { tr } from '../words/tr.ts';
import { derive, found, leaf, type Quantity } from '../working/quantity.ts';
import type { Source } from '../working/source.ts';
import { chanceLitres, logMiddle, logSpread } from './formulas.ts';

/** How the litres that a job will really take are spread: lognormal, ln L. */
export interface Spread {
  readonly middle: number;
  readonly deviation: number;
}

/** One thing that is uncertain for some of the amounts together: a deviation of their logarithms, shared by its key. */
interface Cause {
  readonly key: string;
  readonly deviation: number;
}

/** One amount with everything that may move it. */
export interface Amount {
  readonly litres: Litres;
  readonly causes: readonly Cause[];
}

/**
 * Mean and variance of a sum of lognormal amounts, each of median `litres`, that share causes.
 * @returns L and L²
 */
export function sumOfAmounts(amounts: readonly Amount[]): {
  readonly mean: number;
  readonly variance: number;
} {
  const own = amounts.map((a) => a.causes.reduce((v, c) => v + c.deviation ** 2, 0));
  const means = amounts.map((a, i) => a.litres * Math.exp(own[i]! / 2));
  const byKey = amounts.map((a) => new Map(a.causes.map((c) => [c.key, c.deviation])));
  let variance = 0;
  for (let i = 0; i < amounts.length; i++) {
    for (let j = i; j < amounts.length; j++) {
      let shared = 0;
      for (const [key, deviation] of byKey[i]!) shared += deviation * (byKey[j]!.get(key) ?? 0);
      variance += (i === j ? 1 : 2) * means[i]! * means[j]! * Math.expm1(shared);
    }
  }
  return { mean: means.reduce((s, m) => s + m, 0), variance };
}

/** What may move the litres of one product, coat by coat of zone by zone, in the order of its parts. */
export function amountsOf(job: Job, zones: readonly ZoneTakeoff[], paint: PaintTotal): Amount[] {
  const alone = valueByKey(job, 'order.zone-spread').value;
  return paint.parts.map(({ zone: index, coat }): Amount => {
    const zone = zones[index]!;
    const { P, F, g } = zone.areaUncertainty.inputs ?? {};
    const area = Math.max(zone.netArea.value, 1e-9);
    const points = Math.hypot((P?.value ?? 0) / area, (g?.value ?? 0) / area / Math.sqrt(3));
    return {
      litres: coat.paint.value,
      causes: [
        // The same painter on the same texture: every zone of it is out by the same.
        {
          key: `texture ${zone.surface.texture} ${coat.first ? 'first' : 'later'}`,
          deviation: coat.spread.value,
        },
        // Zones of one sheet err with its fit, all together.
        { key: `fit ${zone.sheetId}`, deviation: (F?.value ?? 0) / area },
        { key: `corners ${zone.id}`, deviation: points },
        { key: `itself ${zone.id} ${coat.role}`, deviation: alone },
      ],
    };
  });
}

const causesTold = tr`each coat of each zone may be off by its texture multiplier (all zones of a texture together), its sheet’s fit, its corners, and by itself`;
const normal: Source = { kind: 'derived', from: tr`the standard normal distribution` };

const { erf } = create({ erfDependencies } as FactoryFunctionMap) as { erf: (x: number) => number };

/** The chance that a standard normal amount is below z. */
const belowNormal = (z: number): number => (1 + erf(z / Math.SQRT2)) / 2;

/** Nobody asks for a chance that is further out. */
const FURTHEST = 9;

/** The z that a standard normal amount exceeds with a chance between 0 and 1, to the last digits, by halving. */
export function deviationsUp(chance: number): number {
  let [low, high] = [-FURTHEST, FURTHEST];
  for (let i = 0; i < 64; i++) {
    const middle = (low + high) / 2;
    if (1 - belowNormal(middle) > chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The litres that suffice but for the chosen chance, with their working, and how the real litres are spread. */
export function litresByChance(
  job: Job,
  zones: readonly ZoneTakeoff[],
  paint: PaintTotal,
): { readonly litres: Quantity; readonly spread: Spread } {
  const sum = sumOfAmounts(amountsOf(job, zones, paint));
  const told: Source = { kind: 'derived', from: tr`moments of lognormal amounts that share causes` };
  const E = found(tr`litres to expect`, 'E', sum.mean, 'L', causesTold, told, { P: paint.quantity });
  const V = found(tr`their variance`, 'V', sum.variance, 'L²', causesTold, told);
  const s = derive(tr`deviation of the logarithm`, logSpread, { V, E });
  const u = leaf(tr`one litre`, 'u', 1, 'L', { kind: 'derived', from: tr`the unit` });
  const m = derive(tr`middle of the logarithm`, logMiddle, { E, u, s });
  const chance = valueByKey(job, 'order.chance');
  const z = found(
    tr`deviations up`,
    'z',
    deviationsUp(chance.value / 100),
    '1',
    tr`exceeded with a chance of ${chance.value} %`,
    normal,
    { c: chance },
  );
  return {
    litres: derive(tr`${paint.product.name}, but for a chance of ${chance.value} %`, chanceLitres, {
      u,
      m,
      z,
      s,
    }),
    spread: { middle: m.value, deviation: s.value },
  };
}

/** The chance that so many litres are not enough, 0 to 1. */
export function chanceShort({ middle, deviation }: Spread, litres: Litres): number {
  if (!(litres > 0)) return 1;
  if (deviation < 1e-9) return Math.log(litres) >= middle ? 0 : 1;
  return 1 - belowNormal((Math.log(litres) - middle) / deviation);
}
