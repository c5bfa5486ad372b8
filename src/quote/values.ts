import { type DefaultValue, valueLookup, valuesOf } from '../working/default-value.ts';
import type { Source } from '../working/source.ts';

const work = valuesOf('hours');
const price = valuesOf('price');

const oneContractor: Source = {
  kind: 'published',
  title: 'one contractor’s crews, published 2010',
  edition: '2010',
  clause: '46–65 m² an hour by wand; a guess, its author says',
};

/** What hours and prices start from, which the user may replace. One person each. */
export const QUOTE_VALUES: readonly DefaultValue[] = [
  work('work.wash', 'pressure-washed by one person', ['w', 'm²/h'], 55, [1, 500], {
    source: oneContractor,
    note: 'With the water caught and carried away it is 20–30.',
  }),
  work('work.etch', 'etched, scrubbed and rinsed twice', ['e', 'm²/h'], 35, [1, 500], {
    note: 'A US Army practice of a third of a square metre at a time is far slower.',
  }),
  work('work.grind', 'ground with a walk-behind grinder', ['g', 'm²/h'], 18, [0.5, 500]),
  work('work.abrade', 'old paint abraded', ['a', 'm²/h'], 20, [0.5, 500]),
  work('work.mask', 'tape laid', ['t', 'm/h'], 80, [1, 1000]),
  work('work.unmask', 'tape taken off', ['t', 'm/h'], 200, [1, 1000]),
  work('work.set-up', 'setting up, each day', ['h', 'h'], 0.75, [0, 24]),
  work('work.clean-up', 'cleaning up, each day', ['h', 'h'], 0.6, [0, 24]),
  work('work.travel', 'travel there and back, each day and person', ['h', 'h'], 0.5, [0, 24]),
  work('work.crew', 'people', ['n', '1'], 2, [1, 50]),
  work('work.day', 'hours of a working day', ['h', 'h'], 8, [1, 24]),
  price('price.margin', 'on top of cost', ['m', '%'], 20, [0, 500]),
];

/** The value in force by its key; an unknown key is a bug. */
export const quoteValue = valueLookup(QUOTE_VALUES);

/** What else a price can be entered for, in cents each. */
export const PRICE_KEYS: ReadonlyArray<readonly [key: string, words: string]> = [
  ['labour.hour', 'an hour of one person'],
  ['travel.day', 'a day’s journey'],
];
