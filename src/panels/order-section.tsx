import { useState } from 'react';
import type { Edit } from '../job/edits/index.ts';
import type { Pack } from '../job/types.ts';
import type { OrderLine } from '../order/order.ts';
import type { Results } from '../results.ts';
import { plainNumber, type UnitSystem, volumeNumber, volumeUnit } from '../units/format.ts';
import { moneyText, parseMoney } from '../units/money.ts';
import type { Quantity } from '../working/quantity.ts';
import { Section, Working } from './fields.tsx';

/** What to buy: whole packs for each product and colour, and the packs and prices they are chosen from. */
export function OrderSection(props: {
  readonly results: Results;
  readonly units: UnitSystem;
  readonly onWorking: (q: Quantity) => void;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { order } = props.results;
  const { units, onWorking } = props;
  if (order.lines.length === 0) return null;
  return (
    <Section title="Order">
      <table className="totals">
        <thead>
          <tr>
            <th scope="col">Product</th>
            <th scope="col" className="num">
              Needed {volumeUnit(units)}
            </th>
            <th scope="col">Packs</th>
            <th scope="col" className="num">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {order.lines.map((line) => (
            <tr key={`${line.productId} ${line.colour}`}>
              <th scope="row">
                {line.product}
                {line.colour && <span className="dim"> {line.colour}</span>}
              </th>
              <td className="num">
                <Working of={line.need} text={volumeNumber(line.need.value, units)} onOpen={onWorking} />
              </td>
              <td>{packWords(line)}</td>
              <td className="num">
                {line.choice?.costCents == null ? '–' : moneyText(line.choice.costCents)}
              </td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">All packs</th>
            <td />
            <td />
            <td className="num">{order.costCents === null ? '–' : moneyText(order.costCents)}</td>
          </tr>
        </tfoot>
      </table>
      <p className="dim">
        Litres are summed over all zones before packs are chosen. With every price entered the cheapest packs
        are taken, then the least left over, then the fewest packs; without, the least left over. Buy one
        batch for what is seen together, or mix the packs before you start.
      </p>
      {products(order.lines).map((line) => (
        <PackEditor key={line.productId} line={line} onChange={props.onChange} />
      ))}
    </Section>
  );
}

const products = (lines: readonly OrderLine[]): OrderLine[] => [
  ...new Map(lines.map((line) => [line.productId, line])).values(),
];

const packWords = ({ choice }: OrderLine): string =>
  choice === null
    ? 'no packs that fit: add a size below'
    : choice.packs.map((p) => `${p.count} × ${plainNumber(p.sizeL)} L`).join(', ');

/** The packs one product comes in. */
function PackEditor(props: {
  readonly line: OrderLine;
  readonly onChange: (edits: readonly Edit[]) => void;
}) {
  const { line, onChange } = props;
  const set = (packs: readonly Pack[] | null) =>
    onChange([{ type: 'set-packs', args: { productId: line.productId, packs } }]);
  const [size, setSize] = useState('');
  const sizeL = Number(size.replace(',', '.'));
  const taken = line.offers.some((o) => o.sizeL === sizeL);
  return (
    <details className="values">
      <summary>Packs and prices: {line.product}</summary>
      <ul className="rows">
        {line.offers.map((offer) => (
          <li key={offer.sizeL}>
            <Price
              label={`${plainNumber(offer.sizeL)} L, price of a pack`}
              cents={offer.priceCents}
              onEnter={(priceCents) =>
                set(line.offers.map((o) => (o.sizeL === offer.sizeL ? { ...o, priceCents } : o)))
              }
            />
            {line.offers.length > 1 && (
              <button
                type="button"
                aria-label={`Not sold in ${plainNumber(offer.sizeL)} L`}
                onClick={() => set(line.offers.filter((o) => o.sizeL !== offer.sizeL))}
              >
                Not sold
              </button>
            )}
          </li>
        ))}
      </ul>
      <div className="buttons">
        <input
          aria-label={`Another size of ${line.product}, litres`}
          inputMode="decimal"
          placeholder="size in L"
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
        >
          Add a size
        </button>
        <button type="button" onClick={() => set(null)}>
          Usual sizes
        </button>
      </div>
    </details>
  );
}

/** Money as people type it; what cannot be read is said and stays. */
function Price(props: {
  readonly label: string;
  readonly cents: number | null;
  readonly onEnter: (cents: number | null) => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState('');
  const enter = () => {
    if (typed === null) return;
    const cents = typed.trim() === '' ? null : parseMoney(typed);
    if (cents === null && typed.trim() !== '') {
      setWrong(`“${typed}” is not a price: type it like 84 or 84.50.`);
      return;
    }
    setWrong('');
    setTyped(null);
    props.onEnter(cents);
  };
  return (
    <label className="field">
      {props.label}
      <input
        inputMode="decimal"
        autoComplete="off"
        placeholder="no price yet"
        value={typed ?? (props.cents === null ? '' : moneyText(props.cents))}
        onChange={(e) => setTyped(e.target.value)}
        onBlur={enter}
        onKeyDown={(e) => {
          if (e.key === 'Enter') enter();
        }}
      />
      {wrong && <span className="wrong">{wrong}</span>}
    </label>
  );
}
