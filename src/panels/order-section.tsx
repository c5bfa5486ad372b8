import { useState } from 'react';
import type { Edit } from '../job/edits/index.ts';
import type { Pack } from '../job/types.ts';
import type { OrderLine } from '../order/order.ts';
import type { Results } from '../results.ts';
import {
  boughtNumber,
  boughtUnit,
  packText,
  plainNumber,
  shownUnit,
  type UnitSystem,
  volumeNumber,
  volumeUnit,
} from '../units/format.ts';
import { moneyText } from '../units/money.ts';
import { tr } from '../words/tr.ts';
import type { Quantity } from '../working/quantity.ts';
import { ChanceCurve } from './chance-curve.tsx';
import { Drawer } from './drawer.tsx';
import { Choice, PriceField, Section, Working } from './fields.tsx';
import { rich } from './rich.tsx';

interface Props {
  readonly results: Results;
  readonly units: UnitSystem;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}

/** What to buy: whole packs for each product and colour, the packs they are chosen from, and the rest to have on site. */
export function OrderSection(props: Props) {
  const { job, order } = props.results;
  const { units, onWorking, onChange } = props;
  if (order.blocks.length > 0) return <Blocked results={props.results} />;
  return (
    <>
      <Section title={tr`Order`}>
        {props.results.quote.scope.overruled.map((words) => (
          <p key={words} className="caution">
            {words}
          </p>
        ))}
        <Choice
          label={tr`Amounts are ordered`}
          value={job.settings.orderBy ?? 'chance'}
          options={[
            ['chance', tr`for a chance of running short`],
            ['percent', tr`with a percentage on top`],
          ]}
          onChange={(orderBy) => onChange([{ type: 'change-settings', args: { orderBy } }])}
        />
        <div className="scroll">
          <table className="totals">
            <thead>
              <tr>
                <th scope="col">{tr`Product`}</th>
                <th scope="col" className="num">{tr`Needed ${volumeUnit(units)}`}</th>
                <th scope="col">{tr`Packs`}</th>
                <th scope="col" className="num">{tr`Cost`}</th>
              </tr>
            </thead>
            <tbody>
              {order.lines.map((line) => (
                <tr key={`${line.productId} ${line.tint}`}>
                  <th scope="row">
                    {line.product}
                    {line.tint && <span className="dim"> {line.tint}</span>}
                  </th>
                  <td className="num">
                    <Working of={line.need} text={volumeNumber(line.need.value, units)} onOpen={onWorking} />
                  </td>
                  <td>{packWords(line, units)}</td>
                  <td className="num">
                    {line.choice?.costCents == null ? '–' : moneyText(line.choice.costCents)}
                  </td>
                </tr>
              ))}
            </tbody>
            <tfoot>
              <tr>
                <th scope="row">{tr`All packs`}</th>
                <td />
                <td />
                <td className="num">{order.costCents === null ? '–' : moneyText(order.costCents)}</td>
              </tr>
            </tfoot>
          </table>
        </div>
        <p className="dim">{tr`Amounts are summed over all zones before packs are chosen. With every price entered the cheapest packs are taken, then the least left over, then the fewest packs; without, the least left over.`}</p>
        {order.lines.map((line) => (
          <LineDetails key={`${line.productId} ${line.tint}`} {...props} line={line} />
        ))}
      </Section>
      <Section title={tr`Also on site`}>
        <table className="totals">
          <tbody>
            {order.sundries.map((s) => (
              <tr key={s.name}>
                <th scope="row">{s.name}</th>
                <td className="num">
                  <Working
                    of={s.quantity}
                    text={boughtNumber(s.quantity.value, s.unit, units)}
                    onOpen={onWorking}
                  />
                </td>
                <td>{boughtUnit(s.unit, units, s.quantity.value)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Section>
    </>
  );
}

/** Why nothing is to be bought yet. */
function Blocked({ results }: { readonly results: Results }) {
  return (
    <Section title={tr`Order`}>
      <p className="wrong" role="alert">{tr`Nothing is to be ordered yet.`}</p>
      <ul className="plain">
        {results.order.blocks.map((b) => (
          <li key={`${b.where} ${b.sentence}`}>{b.sentence}</li>
        ))}
      </ul>
      <p className="dim">{tr`Mend that, or leave the slab uncoated. Where it is the answers about the concrete that stand against it, a written reason under Site lets it pass, all but lead.`}</p>
    </Section>
  );
}

/** One line's chances, batches, packs and prices. */
function LineDetails(props: Props & { readonly line: OrderLine }) {
  const { line, units, onWorking } = props;
  const litres = (q: Quantity) => <Working of={q} text={volumeNumber(q.value, units)} onOpen={onWorking} />;
  return (
    <Drawer
      name={`line ${line.product} ${line.tint}`}
      summary={tr`${line.product}${line.tint ? `, ${line.tint}` : ''}: chances, batches, prices`}
    >
      <p>{rich`As worked out ${litres(line.paint.quantity)} ${volumeUnit(units)}; for the chosen chance ${litres(line.byChance)}; with the percentage ${litres(line.byPercent)}. Needed with the reserve for touching up: ${litres(line.need)}.${
        line.chanceShort !== null &&
        tr` What is bought runs short in ${chanceWords(line.chanceShort)}; the reserve is part of it.`
      }`}</p>
      <ChanceCurve line={line} units={units} />
      {line.boxing && <p>{line.boxing}</p>}
      <PackEditor line={line} units={units} onChange={props.onChange} />
    </Drawer>
  );
}

/** A chance as people say it. */
const chanceWords = (chance: number): string =>
  chance < 0.001 ? tr`fewer than 1 job in 1,000` : tr`${plainNumber(100 * chance, 2)} jobs in 100`;

const packWords = ({ choice }: OrderLine, units: UnitSystem): string =>
  choice === null
    ? tr`no packs that fit: add a size below`
    : choice.packs.map((p) => `${p.count} × ${packText(p.sizeL, units)}`).join(', ');

/** The packs one product comes in. */
function PackEditor(props: {
  readonly line: OrderLine;
  readonly units: UnitSystem;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { line, units, onChange } = props;
  const as = shownUnit('L', units);
  const set = (packs: readonly Pack[] | null) =>
    onChange([{ type: 'set-packs', args: { productId: line.productId, packs } }]);
  const [size, setSize] = useState('');
  const sizeL = as.read(Number(size.replace(',', '.')));
  const taken = line.offers.some((o) => o.sizeL === sizeL);
  return (
    <>
      <h3>{tr`Packs it is sold in`}</h3>
      <ul className="rows">
        {line.offers.map((offer) => (
          <li key={offer.sizeL}>
            <PriceField
              label={tr`${packText(offer.sizeL, units)}, price of a pack`}
              cents={offer.priceCents}
              onEnter={(priceCents) =>
                set(line.offers.map((o) => (o.sizeL === offer.sizeL ? { ...o, priceCents } : o)))
              }
            />
            {line.offers.length > 1 && (
              <button
                type="button"
                aria-label={tr`Not sold in ${packText(offer.sizeL, units)}`}
                onClick={() => set(line.offers.filter((o) => o.sizeL !== offer.sizeL))}
              >{tr`Not sold`}</button>
            )}
          </li>
        ))}
      </ul>
      <div className="buttons">
        <input
          aria-label={tr`Another size of ${line.product}, ${as.unit}`}
          inputMode="decimal"
          placeholder={tr`size in ${as.unit}`}
          value={size}
          onChange={(e) => setSize(e.target.value)}
        />
        <button
          type="button"
          disabled={!(sizeL >= 0.001 && sizeL <= 1000) || taken}
          onClick={() => {
            set([...line.offers, { sizeL, priceCents: null }].sort((a, b) => a.sizeL - b.sizeL));
            setSize('');
          }}
        >{tr`Add a size`}</button>
        <button type="button" onClick={() => set(null)}>{tr`Usual sizes`}</button>
      </div>
    </>
  );
}
