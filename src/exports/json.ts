import type { Results } from '../results.ts';
import { tr } from '../words/tr.ts';
import { coatingJson } from './coating-json.ts';
import { daysJson } from './days-json.ts';
import type { Export } from './export.ts';
import { orderJson } from './order-json.ts';
import { quoteJson } from './quote-json.ts';
import { takeoffJson } from './takeoff-json.ts';

/** Everything worked out, with documented keys whose names end in their unit. */
export const resultsJson = (results: Results) => ({
  schema: 1,
  takeoff: takeoffJson(results),
  coating: coatingJson(results),
  order: orderJson(results),
  quote: quoteJson(results),
  days: daysJson(results),
});

/** What `results.schema.json` describes. */
export type ResultsJson = ReturnType<typeof resultsJson>;

export const jsonExport: Export = {
  ending: 'json',
  label: tr`All numbers with their working (JSON)`,
  type: 'application/json',
  write: async (results) => new TextEncoder().encode(`${JSON.stringify(resultsJson(results), null, 1)}\n`),
};
