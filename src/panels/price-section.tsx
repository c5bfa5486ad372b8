import { DEFERENCE } from '../coating/cautions.ts';
import { WORK_VALUES } from '../days/values.ts';
import type { Edit } from '../job/edits/index.ts';
import type { Id } from '../job/types.ts';
import { countText } from '../quote/quote.ts';
import { TAX_RULES } from '../quote/tax.ts';
import { PRICE_KEYS, QUOTE_VALUES } from '../quote/values.ts';
import type { Results } from '../results.ts';
import { oneOf, plainNumber } from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { sourceText } from '../working/source.ts';
import { Drawer } from './drawer.tsx';
import { Choice, NumberField, PriceField, Section, Working } from './fields.tsx';
import { ValuesTable } from './values-section.tsx';

/** Codes of ISO 4217 that the browser knows, of money with hundredths. */
const CURRENCIES = Intl.supportedValuesOf('currency').filter(
  (code) =>
    new Intl.NumberFormat('en', { style: 'currency', currency: code }).resolvedOptions()
      .maximumFractionDigits === 2,
);

interface Props {
  readonly results: Results;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}

/** Hours, prices, tax and what the customer is offered. */
export function PriceSection(props: Props) {
  const { results, onWorking, onChange } = props;
  const { quote, job } = results;
  if (quote.hours.tasks.length === 0) return null;
  return (
    <>
      <Section title={tr`Hours`}>
        <table className="totals">
          <tbody>
            {[quote.hours.work, quote.hours.days, quote.hours.paid].map((q) => (
              <tr key={q.name}>
                <th scope="row">{q.name}</th>
                <td className="num">
                  <Working of={q} text={q.value.toFixed(q.unit === 'h' ? 1 : 0)} onOpen={onWorking} />
                </td>
                <td>{q.unit === 'h' ? 'h' : ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <Drawer name="task by task" summary={tr`Task by task`}>
          <table className="totals">
            <tbody>
              {quote.hours.tasks.map((t) => (
                <tr key={`${t.zoneId} ${t.name}`}>
                  <th scope="row">
                    {t.zoneName}: {t.name}
                  </th>
                  <td className="num">
                    <Working of={t.hours} text={t.hours.value.toFixed(1)} onOpen={onWorking} />
                  </td>
                  <td>h</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Drawer>
        <ValuesTable job={job} values={[...WORK_VALUES, ...QUOTE_VALUES]} onChange={onChange} />
      </Section>
      <Section title={tr`Price`}>
        <Prices {...props} />
        <TaxFields {...props} />
        <OfferTable results={results} />
        <ScopeText results={results} />
      </Section>
    </>
  );
}

/** What costs money besides packs, each with its price. */
function Prices({ results, onChange }: Props) {
  const { job, quote } = results;
  const enter = (key: Id, words: string) => (
    <li key={key}>
      <PriceField
        label={words}
        cents={job.prices?.[key] ?? null}
        onEnter={(cents) => onChange([{ type: 'set-price', args: { key, cents } }])}
      />
    </li>
  );
  const sundries = new Map(
    quote.costs
      .filter((c) => c.kind === 'materials' && !c.key.startsWith('pack.'))
      .map((c) => [
        c.key,
        tr`${c.key === 'sleeve' ? tr`roller sleeves, any nap` : c.what}, each ${oneOf(c.unit)}`,
      ]),
  );
  return (
    <Drawer
      name="prices"
      open={quote.unpriced.length > 0 && quote.offer === null}
      summary={tr`Prices of labour, travel and sundries`}
    >
      <ul className="rows">
        {PRICE_KEYS.map(([key, words]) => enter(key, words))}
        {[...sundries].map(([key, words]) => enter(key, words))}
      </ul>
      <p className="dim">{tr`Packs of paint are priced above, under each product.`}</p>
    </Drawer>
  );
}

function TaxFields({ results, onChange }: Props) {
  const { job, quote } = results;
  const { rule, ratePct, per, on } = quote.tax;
  const set = (
    change: Partial<{ ruleId: string; ratePct: number; per: 'total' | 'line'; on: 'all' | 'materials' }>,
  ) =>
    onChange([{ type: 'change-settings', args: { tax: { ruleId: rule.id, ratePct, per, on, ...change } } }]);
  return (
    <>
      <div className="fields">
        <Choice
          label={tr`Currency`}
          value={job.settings.currency ?? ''}
          options={[['', tr`not said`], ...CURRENCIES.map((code) => [code, code] as const)]}
          onChange={(currency) => {
            if (currency !== '') onChange([{ type: 'change-settings', args: { currency } }]);
          }}
        />
        <Choice
          label={tr`Tax`}
          value={rule.id}
          options={TAX_RULES.map((r) => [r.id, r.name] as const)}
          onChange={(ruleId) =>
            set({ ruleId, ratePct: TAX_RULES.find((r) => r.id === ruleId)!.usualRatePct })
          }
        />
        {rule.id !== 'none' && (
          <>
            <NumberField
              label={tr`Rate, as the law has it today`}
              value={ratePct}
              unit="%"
              low={0}
              high={100}
              onEnter={(rate) => set({ ratePct: rate })}
            />
            <Choice
              label={tr`Rounded`}
              value={per}
              options={[
                ['total', tr`once, on the total`],
                ['line', tr`line by line`],
              ]}
              onChange={(p) => set({ per: p })}
            />
            <Choice
              label={tr`Taxed`}
              value={on}
              options={[
                ['all', tr`everything`],
                ['materials', tr`materials only`],
              ]}
              onChange={(o) => set({ on: o })}
            />
          </>
        )}
      </div>
      {rule.id !== 'none' && (
        <p className="dim">{tr`${rule.note} ${sourceText(rule.source)}. Ask who keeps your books.`}</p>
      )}
    </>
  );
}

/** What the customer is offered, and what it is made of. */
function OfferTable({ results }: { readonly results: Results }) {
  const { quote } = results;
  const { offer } = quote;
  return (
    <>
      <div className="scroll">
        <table className="totals">
          <thead>
            <tr>
              <th scope="col">{tr`Cost`}</th>
              <th scope="col" className="num">{tr`Amount`}</th>
              <th scope="col" className="num">{tr`Each`}</th>
              <th scope="col" className="num">{tr`Cost`}</th>
            </tr>
          </thead>
          <tbody>
            {quote.costs.map((c) => (
              <tr key={`${c.key} ${c.what}`}>
                <th scope="row">{c.what}</th>
                <td className="num">{countText(c)}</td>
                <td className="num">{c.eachCents === null ? tr`no price` : moneyText(c.eachCents)}</td>
                <td className="num">{c.cents === null ? '–' : moneyText(c.cents)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {offer ? (
        <table className="totals offer">
          <caption>{tr`Offer, with ${plainNumber(quote.marginPct)} % on top of cost`}</caption>
          <tbody>
            {offer.lines.map((l) => (
              <tr key={l.kind}>
                <th scope="row">{l.what}</th>
                <td className="num">{moneyText(l.cents)}</td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">{tr`Net`}</th>
              <td className="num">{moneyText(offer.netCents)}</td>
            </tr>
            <tr>
              <th scope="row">{quote.tax.rule.taxName || tr`No tax`}</th>
              <td className="num">{moneyText(offer.taxCents)}</td>
            </tr>
            <tr>
              <th scope="row">
                {tr`Total ${results.job.settings.currency ?? ''}`}
                {offer.perYearCents !== null && (
                  <span className="reason">{tr`${moneyText(offer.perYearCents)} for each year until it wants another coat`}</span>
                )}
              </th>
              <td className="num">{moneyText(offer.totalCents)}</td>
            </tr>
          </tfoot>
        </table>
      ) : (
        <p className="empty">
          {quote.blocks.length > 0
            ? tr`There is no price: it should not be coated as it is.`
            : tr`There is no price yet: ${quote.unpriced.length} of ${quote.costs.length} costs have none.`}
        </p>
      )}
    </>
  );
}

/** What the offer is for, what it leaves out, and what stands against it. */
function ScopeText({ results }: { readonly results: Results }) {
  const { scope, cautions } = results.quote;
  const parts: ReadonlyArray<readonly [string, readonly string[]]> = [
    [tr`Work`, scope.work.map((w) => `${w.zone}: ${w.words}`)],
    [tr`Before the first coat`, scope.before],
    [tr`Not to be coated`, scope.refused],
    [tr`Coated against advice`, scope.overruled],
    [tr`Not included`, scope.exclusions],
    [tr`Cautions`, [...cautions.map((c) => c.words), DEFERENCE]],
  ];
  return (
    <Drawer name="what the offer says" summary={tr`What the offer says`}>
      {parts
        .filter(([, lines]) => lines.length > 0)
        .map(([title, lines]) => (
          <div key={title}>
            <h3>{title}</h3>
            <ul className="plain">
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </div>
        ))}
    </Drawer>
  );
}
