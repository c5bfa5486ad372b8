import type { Coating } from '../coating/coating.ts';
import { valueByKey } from '../coating/values.ts';
import type { Id, Job, Pack } from '../job/types.ts';
import { derive, type Quantity } from '../working/quantity.ts';
import { orderedLitres } from './formulas.ts';
import { cheapestPacks, type PackChoice } from './packs.ts';

/** One product in one colour over all zones: what is needed, and the packs to buy. */
export interface OrderLine {
  readonly productId: Id;
  readonly product: string;
  readonly colour: string;
  /** Litres over all zones, and the touch-up reserve with it. */
  readonly need: Quantity;
  readonly offers: readonly Pack[];
  /** Null where no packs can be named. */
  readonly choice: PackChoice | null;
}

export interface Order {
  readonly lines: readonly OrderLine[];
  /** Sum of the lines in integer cents; null while a pack has no price. */
  readonly costCents: number | null;
}

/** Usual sizes; common practice, no source. A maker's own go first: enter them with their prices. */
const USUAL_SIZES_L = [1, 2, 4, 10, 15, 20];

/** The packs a product is offered in: the user's own, or the usual sizes without prices. */
export const offersOf = (job: Job, productId: Id): readonly Pack[] =>
  job.packs?.[productId] ?? USUAL_SIZES_L.map((sizeL) => ({ sizeL, priceCents: null }));

/** Sums litres per product and colour over all zones, then chooses whole packs: never zone by zone or coat by coat. */
export function order(job: Job, coating: Coating): Order {
  const lines = coating.paints.map((paint): OrderLine => {
    const need = derive(`${paint.material}, to order`, orderedLitres, {
      P: paint.quantity,
      r: valueByKey(job, 'order.reserve'),
    });
    const offers = offersOf(job, paint.productId);
    return {
      productId: paint.productId,
      product: paint.material,
      colour: paint.colour,
      need,
      offers,
      choice: cheapestPacks(need.value, offers),
    };
  });
  const costs = lines.map((line) => line.choice?.costCents ?? null);
  return {
    lines,
    costCents: costs.includes(null) ? null : costs.reduce<number>((sum, c) => sum + c!, 0),
  };
}
