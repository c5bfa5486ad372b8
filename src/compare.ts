import type { Results } from './results.ts';
import type { Cents } from './units/money.ts';
import { tr } from './words/tr.ts';

/** One number of two ways to do a job; null where it is not known. */
export type Compared =
  | {
      readonly kind: 'number';
      readonly what: string;
      readonly unit: 'L' | 'h' | 'days';
      readonly a: number | null;
      readonly b: number | null;
    }
  | { readonly kind: 'money'; readonly what: string; readonly a: Cents | null; readonly b: Cents | null }
  /** A time, as YYYY-MM-DDTHH:MM of the site's clock. */
  | { readonly kind: 'time'; readonly what: string; readonly a: string | null; readonly b: string | null };

/** What two ways to do a job come to, side by side: litres, hours, days, cost, and cost for each year of service. */
export function compared(a: Results, b: Results): Compared[] {
  const products = [...new Set([...litres(a).keys(), ...litres(b).keys()])];
  const both = [a, b] as const;
  const number = (what: string, unit: 'L' | 'h' | 'days', of: (r: Results) => number | null): Compared => {
    const [x, y] = both.map(of) as [number | null, number | null];
    return { kind: 'number', what, unit, a: x, b: y };
  };
  const money = (what: string, of: (r: Results) => Cents | null): Compared => {
    const [x, y] = both.map(of) as [Cents | null, Cents | null];
    return { kind: 'money', what, a: x, b: y };
  };
  const times: Compared[] =
    a.days || b.days
      ? [{ kind: 'time', what: tr`Work done`, a: a.days?.finishAt ?? null, b: b.days?.finishAt ?? null }]
      : [];
  return [
    ...products.map((name) => number(name, 'L', (r) => litres(r).get(name) ?? 0)),
    number(tr`Paint in all`, 'L', (r) => [...litres(r).values()].reduce((sum, l) => sum + l, 0)),
    number(tr`Work`, 'h', (r) => r.quote.hours.work.value),
    number(tr`Days on site`, 'days', (r) => r.quote.hours.days.value),
    ...times,
    money(tr`Materials`, (r) => r.order.costCents),
    money(tr`Offer, tax in it`, (r) => r.quote.offer?.totalCents ?? null),
    money(tr`For each year until it wants another coat`, (r) => r.quote.offer?.perYearCents ?? null),
  ];
}

/** Litres of mixed product needed, by its name. */
function litres({ coating }: Results): ReadonlyMap<string, number> {
  const sums = new Map<string, number>();
  for (const { product, quantity } of coating.paints)
    sums.set(product.name, (sums.get(product.name) ?? 0) + quantity.value);
  return sums;
}
