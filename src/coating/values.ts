import type { Job, Texture, Traffic } from '../job/types.ts';
import { TEXTURES } from '../job/types.ts';
import { type DefaultValue, valueInForce } from '../working/default-value.ts';
import type { Quantity } from '../working/quantity.ts';
import { commonPractice } from '../working/source.ts';

export const TEXTURE_NAMES: Readonly<Record<Texture, string>> = {
  trowelled: 'trowelled',
  'light-broom': 'light broom',
  'heavy-broom': 'heavy broom',
  stipple: 'stipple or swirl',
  'exposed-aggregate': 'exposed aggregate',
};

export const TRAFFIC_NAMES: Readonly<Record<Traffic, string>> = {
  foot: 'feet',
  cars: 'cars',
  heavy: 'heavy vehicles',
};

/** First-coat and later-coat multiplier on litres, and nap in mm. Common practice, no source: no public measured table was found. */
const BY_TEXTURE: Readonly<Record<Texture, readonly [first: number, later: number, napMm: number]>> = {
  trowelled: [1.0, 1.0, 5],
  'light-broom': [1.2, 1.1, 12],
  'heavy-broom': [1.5, 1.3, 18],
  stipple: [1.4, 1.25, 18],
  'exposed-aggregate': [1.7, 1.45, 22],
};

const ROUGH_NAP =
  'Some habits say 12 mm for anything rough; public tables put 12 mm at semi-smooth and 18–32 mm at rough concrete.';
const NO_TABLE =
  'No public measured table exists: put in your own from a test patch (litres used × spreading rate × (1 − loss) / area).';

const textureValues = TEXTURES.flatMap((texture): DefaultValue[] => {
  const [first, later, nap] = BY_TEXTURE[texture];
  const common = { group: TEXTURE_NAMES[texture], source: commonPractice };
  return [
    {
      ...common,
      key: `texture.${texture}.first`,
      name: 'texture multiplier, first coat',
      symbol: 'k',
      unit: '1',
      value: first,
      low: 0.5,
      high: 5,
      note: NO_TABLE,
    },
    {
      ...common,
      key: `texture.${texture}.later`,
      name: 'texture multiplier, later coats',
      symbol: 'k',
      unit: '1',
      value: later,
      low: 0.5,
      high: 5,
      note: NO_TABLE,
    },
    {
      ...common,
      key: `texture.${texture}.nap`,
      name: 'nap',
      symbol: 'n',
      unit: 'mm',
      value: nap,
      low: 1,
      high: 50,
      ...(nap >= 18 ? { note: ROUGH_NAP } : {}),
    },
  ];
});

const general: readonly DefaultValue[] = [
  {
    key: 'loss.smooth',
    group: 'loss',
    name: 'loss on trowelled and light broom',
    symbol: 'L',
    unit: '1',
    value: 0.05,
    low: 0,
    high: 0.6,
    source: commonPractice,
  },
  {
    key: 'loss.rough',
    group: 'loss',
    name: 'loss on heavy broom, stipple and exposed aggregate',
    symbol: 'L',
    unit: '1',
    value: 0.1,
    low: 0,
    high: 0.6,
    source: commonPractice,
  },
  {
    key: 'etch.coverage',
    group: 'etch',
    name: 'bare concrete etched by 1 kg of citric acid',
    symbol: 'e',
    unit: 'm²/kg',
    value: 40,
    low: 1,
    high: 200,
    source: commonPractice,
    note: 'A weak etch: no public text supports 40 m² a kilogram; dense trowelled slabs need a second pass or grinding, judged by a water-drop test.',
  },
  {
    key: 'etch.water',
    group: 'etch',
    name: 'water for 1 kg of citric acid',
    symbol: 'w',
    unit: 'L/kg',
    value: 10,
    low: 1,
    high: 100,
    source: commonPractice,
  },
  {
    key: 'grip.dose',
    group: 'grip',
    name: 'grip additive in the last coat',
    symbol: 'd',
    unit: 'g/L',
    value: 20,
    low: 0,
    high: 500,
    source: commonPractice,
    note: 'A dose is not a slip class: only a wet pendulum test of the finished surface gives one.',
  },
  {
    key: 'order.reserve',
    group: 'order',
    name: 'kept back for touching up, for each product and colour',
    symbol: 'r',
    unit: 'L',
    value: 0.5,
    low: 0,
    high: 20,
    source: commonPractice,
  },
];

/** The starting values that do not belong to a system. */
export const GENERAL_VALUES: readonly DefaultValue[] = [...textureValues, ...general];

/** The value in force for a job: the user's own where there is one. */
export const valueIn = (job: Job, d: DefaultValue): Quantity => valueInForce(d, job.values);

const BY_KEY = new Map(GENERAL_VALUES.map((d) => [d.key, d]));

/**
 * The value in force by its key.
 * @throws when no such default exists: the key is a literal of this program.
 */
export function valueByKey(job: Job, key: string): Quantity {
  const d = BY_KEY.get(key);
  if (!d) throw new Error(`no default value ${key}`);
  return valueIn(job, d);
}

/** Whether a texture loses paint like a rough floor. */
export const isRough = (texture: Texture): boolean => texture !== 'trowelled' && texture !== 'light-broom';
