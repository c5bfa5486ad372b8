import { leaf, type Quantity } from './quantity.ts';
import { entered, type Source } from './source.ts';

/** A number that the program starts from, which the user may replace. */
export interface DefaultValue {
  readonly key: string;
  readonly group: string;
  readonly name: string;
  readonly symbol: string;
  readonly unit: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly source: Source;
  /** What is disputed about it, in one line. */
  readonly note?: string;
}

/** The value in force: the user's own where there is one within its range; one outside it is not used. */
export function valueInForce(d: DefaultValue, own: Readonly<Record<string, number>>): Quantity {
  const mine = Object.hasOwn(own, d.key) ? own[d.key]! : Number.NaN;
  const good = mine >= d.low && mine <= d.high;
  return leaf(d.name, d.symbol, good ? mine : d.value, d.unit, good ? entered : d.source, d.note);
}
