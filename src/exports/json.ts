import { coatingJson } from './coating-json.ts';
import { daysJson } from './days-json.ts';
import type { Export } from './export.ts';
import { orderJson } from './order-json.ts';
import { quoteJson } from './quote-json.ts';
import { takeoffJson } from './takeoff-json.ts';

export const jsonExport: Export = {
  ending: 'json',
  label: 'All numbers with their working (JSON)',
  type: 'application/json',
  write: async (results) => {
    const content = {
      schema: 1,
      takeoff: takeoffJson(results),
      coating: coatingJson(results),
      order: orderJson(results),
      quote: quoteJson(results),
      days: daysJson(results),
    };
    return new TextEncoder().encode(`${JSON.stringify(content, null, 1)}\n`);
  },
};
