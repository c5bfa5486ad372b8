import type { Results } from '../results.ts';
import { quantityJson } from './quantity-json.ts';

/** What to buy, with documented keys whose names end in their unit; money in integer cents. */
export function orderJson({ job, order, quote }: Results) {
  return {
    schema: 1,
    job: job.name,
    blocked: order.blocks.map((b) => ({ where: b.where, sentence: b.sentence })),
    overruled: quote.scope.overruled,
    lines: order.lines.map((line) => ({
      product: line.productId,
      name: line.product,
      colour: line.paint.colour,
      base: line.paint.base,
      tint_pct: line.paint.strengthPct,
      finish: line.paint.finish,
      plain_L: line.paint.quantity.value,
      byChance_L: line.byChance.value,
      byPercent_L: line.byPercent.value,
      spread: { middle_lnL: line.spread.middle, deviation_lnL: line.spread.deviation },
      need_L: line.need.value,
      packs: (line.choice?.packs ?? []).map((p) => ({ size_L: p.sizeL, count: p.count })),
      bought_L: line.choice?.boughtL ?? null,
      chanceShort: line.chanceShort,
      cost: line.choice?.costCents ?? null,
      decidedBy: line.choice?.decidedBy ?? null,
      boxing: line.boxing,
      working: quantityJson(line.need),
    })),
    cost: order.costCents,
    sundries: order.sundries.map((s) => ({
      key: s.key,
      material: s.name,
      amount: s.quantity.value,
      unit: s.unit,
      bought: s.bought,
    })),
  };
}
