import type { Finish, Job, Texture, TintBase, Traffic } from '../job/types.ts';
import { TEXTURES } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import { type DefaultValue, valueInForce, valueLookup, valuesOf } from '../working/default-value.ts';
import type { Quantity } from '../working/quantity.ts';
import { commonPractice } from '../working/source.ts';
import { bidTemperature, faaCuring, ufcCoatings } from './sources.ts';

export const TEXTURE_NAMES: Readonly<Record<Texture, string>> = {
  trowelled: tr`trowelled`,
  'light-broom': tr`light broom`,
  'heavy-broom': tr`heavy broom`,
  stipple: tr`stipple or swirl`,
  'exposed-aggregate': tr`exposed aggregate`,
};

export const TRAFFIC_NAMES: Readonly<Record<Traffic, string>> = {
  foot: tr`feet`,
  cars: tr`cars`,
  heavy: tr`heavy vehicles`,
};

export const BASE_NAMES: Readonly<Record<TintBase, string>> = {
  white: tr`white`,
  light: tr`light`,
  medium: tr`medium`,
  deep: tr`deep`,
  clear: tr`clear`,
};

export const FINISH_NAMES: Readonly<Record<Finish, string>> = {
  matt: tr`matt`,
  satin: tr`satin`,
  gloss: tr`gloss`,
};

/** What a texture starts from. Common practice, no source: no public measured table was found. */
interface TextureDefaults {
  /** Multiplier on litres of the first coat and of later ones. */
  readonly first: number;
  readonly later: number;
  /** How far multipliers of that texture lie apart, as the deviation of their logarithm. */
  readonly spread: number;
  readonly napMm: number;
  /** Area one sleeve lasts for, all coats. */
  readonly sleeveM2: number;
  /** What one person rolls, and cuts in, in an hour. */
  readonly rollM2PerH: number;
  readonly cutInMPerH: number;
}

/*
 * Spreads from the usual ranges (light broom 1.1–1.3, heavy broom 1.3–1.7, stipple 1.2–1.6, exposed aggregate 1.4–2.0)
 * taken as two deviations to each side; trowelled, which has no range, 0.05.
 */
const BY_TEXTURE: Readonly<Record<Texture, TextureDefaults>> = {
  trowelled: {
    first: 1.0,
    later: 1.0,
    spread: 0.05,
    napMm: 5,
    sleeveM2: 250,
    rollM2PerH: 60,
    cutInMPerH: 35,
  },
  'light-broom': {
    first: 1.2,
    later: 1.1,
    spread: 0.05,
    napMm: 12,
    sleeveM2: 160,
    rollM2PerH: 45,
    cutInMPerH: 25,
  },
  'heavy-broom': {
    first: 1.5,
    later: 1.3,
    spread: 0.07,
    napMm: 18,
    sleeveM2: 80,
    rollM2PerH: 30,
    cutInMPerH: 20,
  },
  stipple: { first: 1.4, later: 1.25, spread: 0.08, napMm: 18, sleeveM2: 60, rollM2PerH: 22, cutInMPerH: 20 },
  'exposed-aggregate': {
    first: 1.7,
    later: 1.45,
    spread: 0.1,
    napMm: 22,
    sleeveM2: 60,
    rollM2PerH: 22,
    cutInMPerH: 15,
  },
};

const ROUGH_NAP = tr`Some habits say 12 mm for anything rough; public tables put 12 mm at semi-smooth and 18–32 mm at rough concrete.`;
const NO_TABLE = tr`No public measured table exists: write down the paint that a test patch or a finished zone took, and it is learnt from.`;

const armyNap = { kind: 'published', title: tr`US Army TB 43-0144`, edition: '', clause: '4-4' } as const;

const textureValues = TEXTURES.flatMap((texture): DefaultValue[] => {
  const t = BY_TEXTURE[texture];
  const value = valuesOf(TEXTURE_NAMES[texture]);
  const key = `texture.${texture}`;
  const rough = t.napMm >= 18;
  return [
    value(`${key}.first`, tr`texture multiplier, first coat`, ['k', '1'], t.first, [0.5, 5], {
      note: NO_TABLE,
    }),
    value(`${key}.later`, tr`texture multiplier, later coats`, ['k', '1'], t.later, [0.5, 5], {
      note: NO_TABLE,
    }),
    value(
      `${key}.spread`,
      tr`how far the multiplier may be off, deviation of its logarithm`,
      ['s', '1'],
      t.spread,
      [0.001, 1],
      { note: tr`From the usual range of the multiplier, taken as two deviations to each side.` },
    ),
    value(
      `${key}.nap`,
      'nap',
      ['n', 'mm'],
      t.napMm,
      [1, 50],
      rough
        ? {
            note: ROUGH_NAP,
            choices: [
              { value: 12, source: commonPractice },
              { value: t.napMm, source: commonPractice },
              { value: 32, source: armyNap },
            ],
          }
        : {},
    ),
    value(`${key}.sleeve`, tr`area that one sleeve lasts for, all coats`, ['l', 'm²'], t.sleeveM2, [1, 5000]),
    value(`${key}.roll`, tr`rolled by one person, one coat`, ['r', 'm²/h'], t.rollM2PerH, [1, 1000]),
    value(`${key}.cut-in`, tr`cut in by one person, one coat`, ['c', 'm/h'], t.cutInMPerH, [1, 1000]),
  ];
});

const loss = valuesOf(tr`loss`);
const etch = valuesOf(tr`etch`);
const grip = valuesOf(tr`grip`);
const mixing = valuesOf(tr`mixing`);
const order = valuesOf(tr`order`);
const ready = valuesOf(tr`readiness`);

/*
 * Potential acid, three moles of H⁺ a mole of anhydrous citric acid, against the usual 10 % hydrochloric acid at 45 ft² a
 * gallon: 0.39 and 2.6 mol/m², so 40 m²/kg would be 6 m²/kg at the same strength. Computed from the recipes.
 */
const general: readonly DefaultValue[] = [
  loss('loss.smooth', tr`loss on trowelled and light broom`, ['L', '1'], 0.05, [0, 0.6]),
  loss('loss.rough', tr`loss on heavy broom, stipple and exposed aggregate`, ['L', '1'], 0.1, [0, 0.6]),
  loss(
    'loss.dead-volume',
    tr`paint that fills the pores of bare concrete before a film counts, first coat`,
    ['d', 'mL/m²'],
    20,
    [0, 500],
    {
      source: {
        kind: 'from memory',
        of: tr`paint inspection handbooks: a blast profile of 30 µm on steel takes 20 mL/m²; for etched concrete by analogy`,
      },
      note: tr`Etched concrete may take 30–70 mL/m². Set it to 0 where your own texture multiplier was measured on bare concrete without it.`,
    },
  ),
  etch('etch.coverage', tr`bare concrete etched by 1 kg of citric acid`, ['e', 'm²/kg'], 40, [1, 200], {
    note: tr`A weak etch: no public text supports 40 m² a kilogram; dense trowelled slabs need a second pass or grinding, judged by a water-drop test. 6 m² a kilogram has the acid of the usual 10 % hydrochloric wash.`,
    choices: [
      { value: 40, source: commonPractice },
      {
        value: 6,
        source: { kind: 'derived', from: tr`the acid of 10 % hydrochloric acid at 45 ft² a gallon` },
      },
    ],
  }),
  etch('etch.water', tr`water for 1 kg of citric acid`, ['w', 'L/kg'], 10, [1, 100]),
  etch('etch.dwell', tr`time the etch works before it is scrubbed off`, ['t', 'min'], 4, [1, 60], {
    note: tr`Habits say 3–4 minutes, other texts 5–10; never let it dry on the slab.`,
    choices: [
      { value: 4, source: commonPractice },
      { value: 10, source: commonPractice },
    ],
  }),
  etch('etch.prewet', tr`water to wet the slab before the etch`, ['q', 'L/m²'], 0.75, [0, 20]),
  etch('etch.rinse', tr`water to rinse the etch off, all rinses together`, ['q', 'L/m²'], 7.5, [0, 50]),
  etch(
    'etch.neutraliser',
    tr`sodium bicarbonate that neutralises 1 kg of citric acid`,
    ['b', 'kg/kg'],
    1.31,
    [0, 5],
    {
      source: { kind: 'derived', from: tr`stoichiometry: 3 × 84.007 / 192.124 for anhydrous citric acid` },
      note: tr`Enough for all of the acid; most is spent on the slab, so let pH paper decide, and rinse the soda off too.`,
    },
  ),
  grip('grip.dose', tr`grip additive in the last coat`, ['d', 'g/L'], 20, [0, 500], {
    note: tr`A dose is not a slip class: only a wet pendulum test of the finished surface gives one.`,
  }),
  mixing(
    'mix.bucket',
    tr`bucket that paint is mixed in, filled to the working mark`,
    ['B', 'L'],
    10,
    [0.5, 60],
  ),
  mixing('mix.etch-bucket', tr`bucket or can that etch is mixed in`, ['B', 'L'], 10, [0.5, 200]),
  mixing('mix.wet-edge-water', tr`wet edge of a water-borne coat`, ['t', 'min'], 8, [1, 60], {
    note: tr`5–10 minutes; 2–4 in heat and wind.`,
  }),
  mixing('mix.wet-edge-solvent', tr`wet edge of a solvent-borne coat`, ['t', 'min'], 15, [1, 120], {
    note: tr`10–20 minutes.`,
  }),
  order('order.chance', tr`chance of running short that the order is made for`, ['c', '%'], 5, [0.1, 50]),
  order('order.percent', tr`put on top where the order is by percentage`, ['x', '%'], 10, [0, 100]),
  order(
    'order.zone-spread',
    tr`how far one coat of one zone may be off by itself, deviation of the logarithm`,
    ['z', '1'],
    0.05,
    [0.001, 1],
  ),
  order(
    'order.trial-spread',
    tr`how far one trial may be off, deviation of the logarithm`,
    ['t', '1'],
    0.08,
    [0.001, 1],
    { note: tr`Small patches are rolled with more care than a yard: keep it well above zero.` },
  ),
  order(
    'order.reserve',
    tr`kept back for touching up, for each product and colour`,
    ['r', 'L'],
    0.5,
    [0, 20],
  ),
  order('order.tape-roll', tr`masking tape on a roll`, ['R', 'm'], 55, [1, 200]),
  order('order.tape-overlap', tr`tape lost to overlaps and corners`, ['o', '%'], 5, [0, 100]),
  ready('ready.age', tr`age of new concrete cured at 20 °C before it is coated`, ['d', 'd'], 28, [1, 365], {
    note: tr`Trade habit says 28 days, a US federal specification 30 at 24 °C or more.`,
    choices: [
      { value: 28, source: commonPractice },
      { value: 30, source: faaCuring },
    ],
  }),
  ready(
    'ready.ph',
    tr`how far the pH after rinsing may be from that of the rinse water`,
    ['p', '1'],
    1,
    [0, 5],
    {
      source: ufcCoatings(tr`6.7.2.1, citing ASTM D4262`),
    },
  ),
  ready(
    'ready.vapour',
    tr`moisture vapour under a floor, at most, where a calcium chloride test was made`,
    ['q', 'lb/1000 ft²/d'],
    3,
    [0.1, 50],
    {
      source: { kind: 'from memory', of: tr`ASTM F1869; the limit is set by suppliers of indoor floors` },
      note: tr`For garages and other floors under a roof: a slab outdoors has no stable climate to test in.`,
    },
  ),
  ready(
    'ready.coldest',
    tr`coldest that concrete and air may be, nights included`,
    ['t', '°C'],
    10,
    [-10, 30],
    {
      note: tr`Texts give 5, 7 and 10 °C: what the tin says goes first.`,
      choices: [
        { value: 10, source: commonPractice },
        { value: 7, source: bidTemperature },
      ],
    },
  ),
  ready('ready.hottest', tr`hottest that the concrete may be`, ['t', '°C'], 35, [15, 60], {
    source: bidTemperature,
  }),
];

/** The starting values that do not belong to a system. */
export const GENERAL_VALUES: readonly DefaultValue[] = [...textureValues, ...general];

/** The value in force for a job: the user's own where there is one. */
export const valueIn = (job: Job, d: DefaultValue): Quantity => valueInForce(d, job.values);

/** The general value in force by its key; an unknown key is a bug. */
export const valueByKey = valueLookup(GENERAL_VALUES);

/** Whether a texture loses paint like a rough floor, and grips like one. */
export const isRough = (texture: Texture): boolean => texture !== 'trowelled' && texture !== 'light-broom';
