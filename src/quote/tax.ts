import type { Id, Settings } from '../job/types.ts';
import { type Cents, percentOf, type Rounding } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import type { Source } from '../working/source.ts';

type Per = 'total' | 'line';

/** How a country's tax on sales is worked out. The rate is the user's to check. */
export interface TaxRule {
  readonly id: Id;
  readonly name: string;
  /** What it is called on a quote; empty for none. */
  readonly taxName: string;
  readonly usualRatePct: number;
  /** How a fraction of a cent is treated, on the total and line by line. */
  readonly rounding: Readonly<Record<Per, Rounding>>;
  readonly source: Source;
  readonly note: string;
}

const act = (title: string, edition: string, clause: string): Source => ({
  kind: 'published',
  title,
  edition,
  clause,
});
const memory = (of: string): Source => ({ kind: 'from memory', of });
const HALF_UP = { total: 'half-up', line: 'half-up' } as const;

export const TAX_RULES: readonly TaxRule[] = [
  {
    id: 'none',
    name: tr`no tax`,
    taxName: '',
    usualRatePct: 0,
    rounding: HALF_UP,
    source: { kind: 'common practice' },
    note: '',
  },
  {
    id: 'au-gst',
    name: tr`Australia, GST`,
    taxName: 'GST',
    usualRatePct: 10,
    rounding: HALF_UP,
    source: act(tr`A New Tax System (Goods and Services Tax) Act`, '1999', 's 9-90'),
    note: tr`Half a cent goes up; the supplier chooses total or lines and keeps to it.`,
  },
  {
    id: 'nz-gst',
    name: tr`New Zealand, GST`,
    taxName: 'GST',
    usualRatePct: 15,
    rounding: { total: 'half-down', line: 'half-down' },
    source: act(
      tr`Goods and Services Tax Act`,
      '1985',
      tr`s 19O (plain-language copy); the rate is from memory`,
    ),
    note: tr`Half a cent is dropped; total or lines, the same throughout a period.`,
  },
  {
    id: 'uk-vat',
    name: tr`United Kingdom, VAT`,
    taxName: 'VAT',
    usualRatePct: 20,
    rounding: { total: 'down', line: 'half-up' },
    source: memory(tr`HMRC VAT Notice 700, 17.5`),
    note: tr`The total of an invoice may be rounded down to a whole penny; lines to the nearest.`,
  },
  {
    id: 'eu-vat',
    name: tr`European Union, VAT`,
    taxName: 'VAT',
    usualRatePct: 0,
    rounding: HALF_UP,
    source: memory(tr`national rules, by line or by total`),
    note: tr`Rates and rounding are national: enter yours.`,
  },
  {
    id: 'ca-gst',
    name: tr`Canada, GST`,
    taxName: 'GST',
    usualRatePct: 5,
    rounding: HALF_UP,
    source: memory(tr`Excise Tax Act; provincial tax comes on top`),
    note: tr`Enter GST and provincial tax together where both apply.`,
  },
  {
    id: 'us-sales',
    name: tr`United States, sales tax`,
    taxName: tr`Sales tax`,
    usualRatePct: 0,
    rounding: HALF_UP,
    source: memory(tr`Streamlined Sales and Use Tax Agreement, section 324: from half a cent up`),
    note: tr`The rate is the job site’s; labour on real property is often not taxed: ask your state.`,
  },
];

/** The rule of a job; none where nothing is said. */
export const taxRuleOf = (settings: Settings): TaxRule =>
  TAX_RULES.find((r) => r.id === settings.tax?.ruleId) ?? TAX_RULES[0]!;

/** Tax on lines: on their sum, or on each and summed. */
export function taxOn(lines: readonly Cents[], rule: TaxRule, ratePct: number, per: Per): Cents {
  const rounding = rule.rounding[per];
  if (per === 'line') return lines.reduce((sum, cents) => sum + percentOf(cents, ratePct, rounding), 0);
  return percentOf(
    lines.reduce((sum, cents) => sum + cents, 0),
    ratePct,
    rounding,
  );
}
