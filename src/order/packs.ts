import type { Pack } from '../job/types.ts';
import type { Litres } from '../units/types.ts';

export interface PackCount {
  readonly sizeL: Litres;
  readonly count: number;
  /** Of one pack; null where it has none. */
  readonly priceCents: number | null;
}

/** What to buy for one product and colour. */
export interface PackChoice {
  readonly packs: readonly PackCount[];
  readonly boughtL: Litres;
  /** Integer cents; null while a pack that is bought has no price. */
  readonly costCents: number | null;
  /** What decided, in words. */
  readonly decidedBy: 'cost' | 'least left over';
}

/** Sizes are told apart to the millilitre. */
const ML = 1000;

/** Largest need that is worked out exactly in one go, in steps of the packs' common measure. */
const MOST_STEPS = 4_000_000;

/**
 * The cheapest whole packs that hold at least `needL`; among equals the least left over, then the fewest packs. Without
 * all prices: the least left over, then the fewest packs. Exact: every total from the need to one largest pack above it
 * is tried (no cheapest choice holds more, or a pack could be left out). Of a need above four million steps of the common
 * measure all but the last two million go into packs of the least cost a litre before that.
 * @returns null when nothing can be bought
 */
export function cheapestPacks(needL: Litres, offers: readonly Pack[]): PackChoice | null {
  const sizes = offers.map((o) => Math.round(o.sizeL * ML));
  if (sizes.length === 0 || sizes.some((s) => s <= 0)) return null;
  const priced = offers.every((o) => o.priceCents !== null);
  const decidedBy = priced ? 'cost' : 'least left over';
  // A need that is a hair above a whole number of millilitres by rounding is that number.
  const need = Math.ceil(needL * ML - 1e-6);
  if (!(need > 0)) return { packs: [], boughtL: 0, costCents: priced ? 0 : null, decidedBy };
  const step = sizes.reduce(commonMeasure);
  const units = sizes.map((s) => s / step);
  const prices = offers.map((o) => (priced ? o.priceCents! : 0));
  const all = Math.ceil(need / step);
  const bulk = bulkOf(units, prices);
  const bulkCount = all > MOST_STEPS ? Math.floor((all - MOST_STEPS / 2) / units[bulk]!) : 0;
  const from = all - bulkCount * units[bulk]!;
  const top = from + Math.max(...units) - 1;
  const table = cheapestTotals(top, units, prices);
  let best = -1;
  for (let t = from; t <= top; t++) {
    if (!Number.isFinite(table.cost[t]!)) continue;
    // Totals rise, so an equal cost at a later one leaves more over.
    if (best < 0 || table.cost[t]! < table.cost[best]!) best = t;
  }
  const counts = new Map<number, number>(bulkCount > 0 ? [[bulk, bulkCount]] : []);
  for (let t = best; t > 0; t -= units[table.last[t]!]!) {
    const k = table.last[t]!;
    counts.set(k, (counts.get(k) ?? 0) + 1);
  }
  const packs = [...counts]
    .map(([k, count]) => ({ sizeL: offers[k]!.sizeL, count, priceCents: offers[k]!.priceCents }))
    .sort((a, b) => b.sizeL - a.sizeL);
  const boughtL = ((best + bulkCount * units[bulk]!) * step) / ML;
  const unpriced = packs.some((p) => p.priceCents === null);
  const costCents = unpriced ? null : packs.reduce((sum, p) => sum + p.count * p.priceCents!, 0);
  return { packs, boughtL, costCents, decidedBy };
}

/** Totals that are worked out for a table of choices: more take too long. */
const MOST_TABLE_STEPS = 400_000;

/**
 * The cheapest choices for every need above `lowL` up to about `highL`, the smallest first: each serves every need above
 * the litres of the one before, up to its own. From one table of totals, by the same rule as `cheapestPacks`.
 * @returns empty when nothing can be bought, or the range is too wide for the packs' common measure
 */
export function cheapestChoices(lowL: Litres, highL: Litres, offers: readonly Pack[]): PackChoice[] {
  const sizes = offers.map((o) => Math.round(o.sizeL * ML));
  if (sizes.length === 0 || sizes.some((s) => s <= 0)) return [];
  const priced = offers.every((o) => o.priceCents !== null);
  const step = sizes.reduce(commonMeasure);
  const units = sizes.map((s) => s / step);
  const prices = offers.map((o) => (priced ? o.priceCents! : 0));
  const top = Math.ceil((highL * ML) / step) + Math.max(...units) - 1;
  if (!(top <= MOST_TABLE_STEPS)) return [];
  const table = cheapestTotals(top, units, prices);
  const choices: PackChoice[] = [];
  const lowest = Math.max(1, Math.floor((lowL * ML) / step) + 1);
  let best = -1;
  // From the top down: a total is a choice where nothing above it costs as little.
  for (let t = top; t >= lowest; t--) {
    if (!Number.isFinite(table.cost[t]!) || (best >= 0 && table.cost[t]! > table.cost[best]!)) continue;
    best = t;
    choices.push(choiceOf(t, step, table, units, offers, priced));
  }
  return choices.reverse();
}

function choiceOf(
  total: number,
  step: number,
  table: ReturnType<typeof cheapestTotals>,
  units: readonly number[],
  offers: readonly Pack[],
  priced: boolean,
): PackChoice {
  const counts = new Map<number, number>();
  for (let t = total; t > 0; t -= units[table.last[t]!]!)
    counts.set(table.last[t]!, (counts.get(table.last[t]!) ?? 0) + 1);
  const packs = [...counts]
    .map(([k, count]) => ({ sizeL: offers[k]!.sizeL, count, priceCents: offers[k]!.priceCents }))
    .sort((a, b) => b.sizeL - a.sizeL);
  const costCents = packs.some((p) => p.priceCents === null)
    ? null
    : packs.reduce((sum, p) => sum + p.count * p.priceCents!, 0);
  const boughtL = (total * step) / ML;
  return { packs, boughtL, costCents, decidedBy: priced ? 'cost' : 'least left over' };
}

/** The pack of the least cost a litre; of the most litres where nothing has a price. */
const bulkOf = (units: readonly number[], prices: readonly number[]): number =>
  [...units.keys()].reduce((best, k) => {
    const [a, b] = [prices[k]! * units[best]!, prices[best]! * units[k]!];
    return a < b || (a === b && units[k]! > units[best]!) ? k : best;
  });

/** For each exact total the least cost, then the fewest packs, and the pack that was added last. */
function cheapestTotals(top: number, units: readonly number[], prices: readonly number[]) {
  const cost = new Float64Array(top + 1).fill(Infinity);
  const packs = new Float64Array(top + 1).fill(Infinity);
  const last = new Int32Array(top + 1).fill(-1);
  cost[0] = 0;
  packs[0] = 0;
  for (let t = 1; t <= top; t++) {
    for (let k = 0; k < units.length; k++) {
      const before = t - units[k]!;
      if (before < 0) continue;
      const c = cost[before]! + prices[k]!;
      const n = packs[before]! + 1;
      if (c < cost[t]! || (c === cost[t] && n < packs[t]!)) {
        cost[t] = c;
        packs[t] = n;
        last[t] = k;
      }
    }
  }
  return { cost, packs, last };
}

const commonMeasure = (a: number, b: number): number => (b === 0 ? a : commonMeasure(b, a % b));
