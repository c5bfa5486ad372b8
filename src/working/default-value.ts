import { leaf, type Quantity } from './quantity.ts';
import { commonPractice, entered, type Source } from './source.ts';

/** A value that somebody else holds to be right, where sources disagree. */
export interface Choice {
  readonly value: number;
  readonly source: Source;
}

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
  /** What to choose from where sources disagree; the value itself is one of them. */
  readonly choices?: readonly Choice[];
}

/** What a value may say besides its number; common practice without a source where it says nothing. */
interface More {
  readonly source?: Source;
  readonly note?: string;
  readonly choices?: readonly Choice[];
}

/** A family of values under one heading: key, name, [symbol, unit], value, [low, high]. */
export const valuesOf =
  (group: string) =>
  (
    key: string,
    name: string,
    [symbol, unit]: readonly [string, string],
    value: number,
    [low, high]: readonly [number, number],
    more: More = {},
  ): DefaultValue => ({
    key,
    group,
    name,
    symbol,
    unit,
    value,
    low,
    high,
    source: commonPractice,
    ...more,
  });

/** The value in force: the user's own where there is one within its range; one outside it is not used. */
export function valueInForce(d: DefaultValue, own: Readonly<Record<string, number>>): Quantity {
  const mine = Object.hasOwn(own, d.key) ? own[d.key]! : Number.NaN;
  const good = mine >= d.low && mine <= d.high;
  const q = leaf(d.name, d.symbol, good ? mine : d.value, d.unit, good ? entered : d.source, d.note);
  return { ...q, key: d.key };
}

/** Values by their keys, for a room to look them up. */
export function valueLookup(
  values: readonly DefaultValue[],
): (job: { readonly values: Readonly<Record<string, number>> }, key: string) => Quantity {
  const byKey = new Map(values.map((d) => [d.key, d]));
  return (job, key) => {
    const d = byKey.get(key);
    if (!d) throw new Error(`no default value ${key}`);
    return valueInForce(d, job.values);
  };
}
