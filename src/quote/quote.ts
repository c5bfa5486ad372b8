import { type Caution, cautionsFor } from '../coating/cautions.ts';
import type { Coating } from '../coating/coating.ts';
import type { Readiness } from '../coating/readiness.ts';
import { valueIn } from '../coating/values.ts';
import { type Hours, hours } from '../days/work.ts';
import type { Id, Job } from '../job/types.ts';
import type { Block, Order } from '../order/order.ts';
import type { Takeoff } from '../takeoff/zone.ts';
import { oneOf, plainNumber, unitText, upToHundredth } from '../units/format.ts';
import { type Cents, percentOf, share, times } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import { type Scope, scopeOf } from './scope.ts';
import { type TaxRule, taxOn, taxRuleOf } from './tax.ts';
import { quoteValue } from './values.ts';

/** What kinds of costs are called in tables. */
export const KIND_WORDS: Readonly<Record<CostLine['kind'], string>> = {
  materials: tr`materials`,
  labour: tr`labour`,
  travel: tr`travel`,
};

/** Something that costs money: an amount, rounded to what is charged, by a price. */
export interface CostLine {
  readonly kind: 'materials' | 'labour' | 'travel';
  /** What its price is entered under. */
  readonly key: Id;
  readonly what: string;
  readonly amount: number;
  readonly unit: string;
  /** Null while there is no price. */
  readonly eachCents: Cents | null;
  readonly cents: Cents | null;
}

/** The amount with what it is counted in: "1 pack", "3 packs", "1.52 L". */
export const countText = ({ amount, unit }: CostLine): string =>
  `${plainNumber(amount)} ${amount === 1 ? oneOf(unit) : unitText(unit)}`;

/** One line of what the customer is offered: margin in it, tax not. */
export interface OfferLine {
  readonly kind: CostLine['kind'];
  readonly what: string;
  readonly cents: Cents;
}

/** What the customer pays. */
export interface Offer {
  readonly lines: readonly OfferLine[];
  readonly netCents: Cents;
  readonly taxCents: Cents;
  readonly totalCents: Cents;
  /** The total for each year until it wants another coat; null where nothing is coated. */
  readonly perYearCents: Cents | null;
}

export interface Quote {
  /** What keeps it from being offered at all. */
  readonly blocks: readonly Block[];
  readonly scope: Scope;
  readonly hours: Hours;
  readonly costs: readonly CostLine[];
  readonly marginPct: number;
  readonly tax: {
    readonly rule: TaxRule;
    readonly ratePct: number;
    readonly per: 'total' | 'line';
    readonly on: 'all' | 'materials';
  };
  /** What has no price yet. */
  readonly unpriced: readonly string[];
  /** Null while it is blocked or a price is missing. */
  readonly offer: Offer | null;
  readonly cautions: readonly Caution[];
}

/** Works out hours, costs and the offer. */
export function quote(
  job: Job,
  takeoff: Takeoff,
  coating: Coating,
  readiness: readonly Readiness[],
  order: Order,
): Quote {
  const spent = hours(job, takeoff, coating);
  const costs = costLines(job, order, spent);
  const { tax } = job.settings;
  const rule = taxRuleOf(job.settings);
  const taxed = {
    rule,
    ratePct: tax?.ratePct ?? 0,
    per: tax?.per ?? 'total',
    on: tax?.on ?? 'all',
  } as const;
  const marginPct = quoteValue(job, 'price.margin').value;
  const unpriced = costs.filter((c) => c.cents === null).map((c) => c.what);
  const open = order.blocks.length === 0 && unpriced.length === 0 && costs.length > 0;
  return {
    blocks: order.blocks,
    scope: scopeOf(job, takeoff, coating, readiness),
    hours: spent,
    costs,
    marginPct,
    tax: taxed,
    unpriced,
    offer: open ? offerOf(job, takeoff, coating, costs, marginPct, taxed) : null,
    cautions: cautionsFor(takeoff.zones, coating),
  };
}

/** Amounts as they are charged, and shown: to two places, up. */
const charged = upToHundredth;

function costLines(job: Job, order: Order, spent: Hours): CostLine[] {
  if (spent.tasks.length === 0) return [];
  const priceOf = (key: Id): Cents | null => job.prices?.[key] ?? null;
  const line = (
    kind: CostLine['kind'],
    key: Id,
    what: string,
    amount: number,
    unit: string,
    eachCents: Cents | null,
  ): CostLine => ({
    kind,
    key,
    what,
    amount,
    unit,
    eachCents,
    cents: eachCents === null ? null : times(eachCents, amount),
  });
  const paints = order.lines.flatMap((l) => {
    const name = `${l.product}${l.tint ? `, ${l.tint}` : ''}`;
    // Paint that no pack holds has no price, and nothing is offered without it.
    if (!l.choice) return [line('materials', `pack.${l.productId}`, name, charged(l.need.value), 'L', null)];
    return l.choice.packs.map((p) =>
      line(
        'materials',
        `pack.${l.productId}.${p.sizeL}`,
        `${name}, ${plainNumber(p.sizeL)} L`,
        p.count,
        'packs',
        p.priceCents,
      ),
    );
  });
  const sundries = order.sundries
    .filter((s) => s.bought && s.quantity.value > 0)
    .map((s) =>
      line(
        'materials',
        s.key,
        s.name,
        s.unit === 'g' ? charged(s.quantity.value / 1000) : charged(s.quantity.value),
        s.unit === 'g' ? 'kg' : s.unit,
        priceOf(s.key),
      ),
    );
  return [
    ...paints,
    ...sundries,
    line('labour', 'labour.hour', tr`labour`, charged(spent.paid.value), 'h', priceOf('labour.hour')),
    line('travel', 'travel.day', tr`travel`, spent.days.value, 'days', priceOf('travel.day')),
  ];
}

const OFFER_WORDS: Readonly<Record<CostLine['kind'], string>> = {
  materials: tr`Paint and materials`,
  labour: tr`Preparation and coating`,
  travel: tr`Travel`,
};

function offerOf(
  job: Job,
  takeoff: Takeoff,
  coating: Coating,
  costs: readonly CostLine[],
  marginPct: number,
  tax: Quote['tax'],
): Offer {
  const lines = (['labour', 'materials', 'travel'] as const)
    .map((kind): OfferLine => {
      const cost = costs.filter((c) => c.kind === kind).reduce((sum, c) => sum + c.cents!, 0);
      return { kind, what: OFFER_WORDS[kind], cents: cost + percentOf(cost, marginPct, 'half-up') };
    })
    .filter((l) => l.cents > 0);
  const netCents = lines.reduce((sum, l) => sum + l.cents, 0);
  const taxedLines = lines.filter((l) => tax.on === 'all' || l.kind === 'materials').map((l) => l.cents);
  const taxCents = tax.rule.id === 'none' ? 0 : taxOn(taxedLines, tax.rule, tax.ratePct, tax.per);
  const totalCents = netCents + taxCents;
  return { lines, netCents, taxCents, totalCents, perYearCents: perYear(job, takeoff, coating, totalCents) };
}

/** The total spread over the years of each zone's system, zone by zone by area. */
function perYear(job: Job, { zones }: Takeoff, coating: Coating, totalCents: Cents): Cents | null {
  const coated = coating.zones.flatMap((z, i) =>
    z.system && z.coats.length > 0
      ? [
          {
            cm2: BigInt(Math.round(zones[i]!.coatedArea.value * 1e4)),
            centiyears: BigInt(Math.round(valueIn(job, z.system.repaint).value * 100)),
          },
        ]
      : [],
  );
  const all = coated.reduce((sum, c) => sum + c.cm2, 0n);
  if (all === 0n) return null;
  // One fraction for all, so that it is rounded once: Σ area / years over the common denominator.
  const years = coated.reduce((product, c) => product * c.centiyears, 1n);
  const weight = coated.reduce((sum, c) => sum + (c.cm2 * years * 100n) / c.centiyears, 0n);
  return share(totalCents, weight, all * years, 'half-up');
}
