import type { Coating, PaintTotal } from '../coating/coating.ts';
import { valueByKey } from '../coating/values.ts';
import type { Remark } from '../job/checks/index.ts';
import type { Id, Job, Pack } from '../job/types.ts';
import type { Takeoff } from '../takeoff/zone.ts';
import { tr } from '../words/tr.ts';
import { derive, type Quantity } from '../working/quantity.ts';
import { boxingAdvice, type VisibleArea, visibleAreas } from './batches.ts';
import { orderedLitres, percentLitres } from './formulas.ts';
import { cheapestPacks, type PackChoice } from './packs.ts';
import { chanceShort, litresByChance, type Spread } from './risk.ts';
import { type Sundry, sundries } from './sundries.ts';

/** One product in one colour over all zones: what is needed, and the packs to buy. */
export interface OrderLine {
  readonly productId: Id;
  readonly product: string;
  /** Colour, base, tint strength and finish in words. */
  readonly tint: string;
  readonly paint: PaintTotal;
  /** Litres by both rules, without the reserve. */
  readonly byChance: Quantity;
  readonly byPercent: Quantity;
  /** How the litres that the job will really take are spread. */
  readonly spread: Spread;
  /** Litres by the rule in force, and the touch-up reserve with it. */
  readonly need: Quantity;
  readonly offers: readonly Pack[];
  /** Null where no packs can be named. */
  readonly choice: PackChoice | null;
  /** The chance that what is bought runs short, reserve and all; null where nothing is. */
  readonly chanceShort: number | null;
  readonly areas: readonly VisibleArea[];
  /** How to keep one batch to one area; empty where one pack does it. */
  readonly boxing: string;
}

/** Why nothing may be ordered yet, for one slab or zone; empty names where it is about the whole job. */
export interface Block {
  readonly where: Id;
  readonly name: string;
  readonly sentence: string;
}

export interface Order {
  /** What keeps the order from being made; it is empty while there is any. */
  readonly blocks: readonly Block[];
  readonly lines: readonly OrderLine[];
  readonly sundries: readonly Sundry[];
  /** Sum of the lines in integer cents; null while a pack has no price. */
  readonly costCents: number | null;
}

/** Usual sizes; common practice, no source. A maker's own go first: enter them with their prices. */
const USUAL_SIZES_L = { metric: [1, 2, 4, 10, 15, 20], us: [0.946, 3.785, 18.927] } as const;

/** The packs a product is offered in: the user's own, or the usual sizes without prices. */
export const offersOf = (job: Job, productId: Id): readonly Pack[] =>
  job.packs?.[productId] ?? USUAL_SIZES_L[job.settings.units].map((sizeL) => ({ sizeL, priceCents: null }));

/**
 * Sums litres per product and colour over all zones, then chooses whole packs: never zone by zone or coat by
 * coat.
 * @param stops the remarks that keep anything from being ordered
 */
export function order(job: Job, takeoff: Takeoff, coating: Coating, stops: readonly Remark[]): Order {
  const blocks = blocksOf(job, takeoff, stops);
  if (blocks.length > 0) return { blocks, lines: [], sundries: [], costCents: null };
  const lines = coating.paints.map((paint) => orderLine(job, takeoff, paint));
  const costs = lines.map((line) => line.choice?.costCents ?? null);
  return {
    blocks,
    lines,
    sundries: sundries(job, takeoff, coating),
    costCents: costs.includes(null) ? null : costs.reduce<number>((sum, c) => sum + c!, 0),
  };
}

function orderLine(job: Job, { zones }: Takeoff, paint: PaintTotal): OrderLine {
  const { litres: byChance, spread } = litresByChance(job, zones, paint);
  const byPercent = derive(tr`${paint.product.name}, with a percentage on top`, percentLitres, {
    P: paint.quantity,
    x: valueByKey(job, 'order.percent'),
  });
  const need = derive(tr`${paint.product.name}, to order`, orderedLitres, {
    Q: job.settings.orderBy === 'percent' ? byPercent : byChance,
    r: valueByKey(job, 'order.reserve'),
  });
  const offers = offersOf(job, paint.product.id);
  const choice = cheapestPacks(need.value, offers);
  const areas = visibleAreas(zones, paint);
  return {
    productId: paint.product.id,
    product: paint.product.name,
    tint: paint.tint,
    paint,
    byChance,
    byPercent,
    spread,
    need,
    offers,
    choice,
    chanceShort: choice ? chanceShort(spread, choice.boughtL) : null,
    areas,
    boxing: boxingAdvice(areas, choice),
  };
}

/** Every remark that says stop: something is missing, wrong, or does not belong together. */
const blocksOf = (job: Job, { zones, unscaled }: Takeoff, stops: readonly Remark[]): Block[] =>
  stops
    .filter((r) => r.code !== 'sheet/no-scale' || unscaled.some((id) => job.slabs[id]!.sheetId === r.where))
    .map((r): Block => {
      const name = zones.find((z) => z.id === r.where)?.name ?? job.slabs[r.where ?? '']?.name ?? '';
      return { where: r.where ?? '', name, sentence: r.sentence };
    });
