import { DEFERENCE } from '../coating/cautions.ts';
import type { Results } from '../results.ts';
import { sourceText } from '../working/source.ts';
import { quantityJson } from './quantity-json.ts';

/** Scope, hours, costs and the offer; money in integer cents. */
export function quoteJson({ job, quote }: Results) {
  return {
    schema: 1,
    job: job.name,
    currency: job.settings.currency ?? null,
    blocked: quote.blocks.map((b) => ({ where: b.where, sentence: b.sentence })),
    scope: quote.scope.work.map((w) => ({ zone: w.zone, area_m2: w.areaM2, words: w.words })),
    before: quote.scope.before,
    refused: quote.scope.refused,
    overruled: quote.scope.overruled,
    exclusions: quote.scope.exclusions,
    tasks: quote.hours.tasks.map((t) => ({
      zone: t.zoneName,
      kind: t.kind,
      role: t.role,
      task: t.name,
      hours_h: t.hours.value,
    })),
    work_h: quote.hours.work.value,
    days: quote.hours.days.value,
    paid_h: quote.hours.paid.value,
    costs: quote.costs.map((c) => ({
      kind: c.kind,
      key: c.key,
      what: c.what,
      amount: c.amount,
      unit: c.unit,
      each: c.eachCents,
      cost: c.cents,
    })),
    unpriced: quote.unpriced,
    margin_pct: quote.marginPct,
    tax: {
      rule: quote.tax.rule.id,
      rate_pct: quote.tax.ratePct,
      per: quote.tax.per,
      on: quote.tax.on,
      source: sourceText(quote.tax.rule.source),
    },
    offer: quote.offer && {
      lines: quote.offer.lines.map((l) => ({ what: l.what, price: l.cents })),
      net: quote.offer.netCents,
      tax: quote.offer.taxCents,
      total: quote.offer.totalCents,
      perYear: quote.offer.perYearCents,
    },
    cautions: [...quote.cautions.map((c) => c.words), DEFERENCE],
    working: quantityJson(quote.hours.paid),
  };
}
