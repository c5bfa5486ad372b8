import type { Job } from '../job/types.ts';
import { type DefaultValue, valueInForce } from '../working/default-value.ts';
import type { Quantity } from '../working/quantity.ts';
import { commonPractice, type Source } from '../working/source.ts';

const group = 'measuring';
const tapeClass: Source = {
  kind: 'from memory',
  of: 'Directive 2014/32/EU, Annex X, material measures of length, class II: ±(0.3 mm + 0.2 mm per metre)',
};

/** What measuring starts from, which the user may replace as the calculator's values. */
export const MEASURE_VALUES: readonly DefaultValue[] = [
  {
    key: 'measure.tap',
    group,
    name: 'how far off a point tapped on a picture is, one standard deviation',
    symbol: 'p',
    unit: 'px',
    value: 1.5,
    low: 0,
    high: 100,
    source: commonPractice,
  },
  {
    key: 'measure.tape-fixed',
    group,
    name: 'tape, permissible error whatever the length',
    symbol: 'a',
    unit: 'mm',
    value: 0.3,
    low: 0,
    high: 50,
    source: tapeClass,
  },
  {
    key: 'measure.tape-per-metre',
    group,
    name: 'tape, permissible error for each metre',
    symbol: 'b',
    unit: 'mm/m',
    value: 0.2,
    low: 0,
    high: 50,
    source: tapeClass,
  },
  {
    key: 'measure.reading',
    group,
    name: 'setting and reading a tape on concrete, one standard deviation',
    symbol: 'r',
    unit: 'mm',
    value: 2,
    low: 0,
    high: 100,
    source: commonPractice,
  },
  {
    key: 'measure.weld',
    group,
    name: 'slabs traced on a picture this close to each other touch',
    symbol: 'w',
    unit: 'mm',
    value: 5,
    low: 0,
    high: 50,
    source: commonPractice,
    note: 'Keep it small: far above the tracing error it joins what lies apart.',
  },
  {
    key: 'measure.brush-width',
    group,
    name: 'width of the band along cut-in edges that is brushed, not rolled',
    symbol: 'w',
    unit: 'mm',
    value: 75,
    low: 0,
    high: 500,
    source: commonPractice,
  },
];

/**
 * The value in force by its key, the default where the user's own is out of range.
 * @throws when there is no such key: it is a literal of this program
 */
export function measureValue(job: Job, key: string): Quantity {
  const d = MEASURE_VALUES.find((v) => v.key === key);
  if (!d) throw new Error(`no measuring value ${key}`);
  return valueInForce(d, job.values);
}
