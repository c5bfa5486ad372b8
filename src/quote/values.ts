import { tr } from '../words/tr.ts';
import { type DefaultValue, valueLookup, valuesOf } from '../working/default-value.ts';

const price = valuesOf(tr`price`);

/** What prices start from, which the user may replace. */
export const QUOTE_VALUES: readonly DefaultValue[] = [
  price('price.margin', tr`on top of cost`, ['m', '%'], 20, [0, 500]),
];

/** The value in force by its key; an unknown key is a bug. */
export const quoteValue = valueLookup(QUOTE_VALUES);

/** What else a price can be entered for, in cents each. */
export const PRICE_KEYS: ReadonlyArray<readonly [key: string, words: string]> = [
  ['labour.hour', tr`an hour of one person`],
  ['travel.day', tr`a day’s journey`],
];
