import type { Results } from '../results.ts';
import { quantityJson } from './quantity-json.ts';

/** What to buy, with documented keys whose names end in their unit; money in integer cents. */
export function orderJson({ job, order, coating }: Results) {
  return {
    schema: 1,
    job: job.name,
    lines: order.lines.map((line) => ({
      product: line.productId,
      name: line.product,
      colour: line.colour,
      need_L: line.need.value,
      packs: (line.choice?.packs ?? []).map((p) => ({ size_L: p.sizeL, count: p.count })),
      bought_L: line.choice?.boughtL ?? null,
      cost: line.choice?.costCents ?? null,
      decidedBy: line.choice?.decidedBy ?? null,
      working: quantityJson(line.need),
    })),
    cost: order.costCents,
    sundries: coating.others.map((t) => ({
      material: t.material,
      amount: t.quantity.value,
      unit: t.quantity.unit,
    })),
  };
}
