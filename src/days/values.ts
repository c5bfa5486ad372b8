import { tr } from '../words/tr.ts';
import { type DefaultValue, valueLookup, valuesOf } from '../working/default-value.ts';
import type { Source } from '../working/source.ts';

const weather = valuesOf(tr`weather`);
const drying = valuesOf(tr`drying`);
const work = valuesOf(tr`hours`);

const bid: Source = {
  kind: 'published',
  title: tr`an engineer’s bid specification`,
  edition: '',
  clause: tr`section 1.07`,
};
const ufc: Source = {
  kind: 'published',
  title: tr`UFC 3-190-06 Protective Coatings and Paints`,
  edition: tr`16 January 2004`,
  clause: '9.6.6: 5 °F',
};
const label = { note: tr`Read it off the label, at 23 °C and 50 % humidity.` };

const oneContractor: Source = {
  kind: 'published',
  title: tr`one contractor’s crews, published 2010`,
  edition: '2010',
  clause: tr`46–65 m² an hour by wand; a guess, its author says`,
};

/** What hours start from; one person each. */
export const WORK_VALUES: readonly DefaultValue[] = [
  work('work.wash', tr`pressure-washed by one person`, ['w', 'm²/h'], 55, [1, 500], {
    source: oneContractor,
    note: tr`With the water caught and carried away it is 20–30.`,
  }),
  work('work.etch', tr`etched, scrubbed and rinsed twice`, ['e', 'm²/h'], 35, [1, 500], {
    note: tr`US Department of Defense practice, a third of a square metre at a time, is far slower.`,
  }),
  work('work.grind', tr`ground with a walk-behind grinder`, ['g', 'm²/h'], 18, [0.5, 500]),
  work('work.abrade', tr`old paint abraded`, ['a', 'm²/h'], 20, [0.5, 500]),
  work('work.mask', tr`tape laid`, ['t', 'm/h'], 80, [1, 1000]),
  work('work.unmask', tr`tape taken off`, ['t', 'm/h'], 200, [1, 1000]),
  work('work.set-up', tr`setting up, each day`, ['h', 'h'], 0.75, [0, 24]),
  work('work.clean-up', tr`cleaning up, each day`, ['h', 'h'], 0.6, [0, 24]),
  work('work.travel', tr`travel there and back, each day and person`, ['h', 'h'], 0.5, [0, 24]),
  work('work.crew', 'people', ['n', '1'], 2, [1, 50]),
  work('work.day', tr`hours of a working day`, ['h', 'h'], 8, [1, 24]),
  work('work.begin', tr`the working day begins at`, ['b', 'h'], 7, [0, 23]),
  work('work.days-a-week', tr`working days in a week, from Monday`, ['w', '1'], 5, [1, 7]),
];

/** What go and wait, and drying times, start from; which the user may replace. */
export const DAY_VALUES: readonly DefaultValue[] = [
  weather('weather.margin', tr`surface above the dew point, at least`, ['m', '°C'], 3, [0, 20], {
    source: bid,
    note: tr`Imperial texts say 5 °F, which is 2.78 °C; 3 °C is a little stricter.`,
    choices: [
      { value: 3, source: bid },
      { value: 2.78, source: ufc },
    ],
  }),
  weather('weather.humidity', tr`humidity of the air, at most`, ['RH', '%'], 85, [30, 100], { source: bid }),
  weather(
    'weather.evaporation',
    tr`evaporation above which a water-borne wet edge is short`,
    ['E', 'kg/m²/h'],
    0.5,
    [0.05, 5],
    { note: tr`Half of what fresh concrete is guarded at; formulas for it are good to 40 % only.` },
  ),
  weather(
    'weather.wind',
    tr`wind that blows leaves and dust into a coat, at most, 10 m up`,
    ['V', 'km/h'],
    35,
    [5, 150],
  ),
  weather(
    'weather.wind-share',
    tr`wind over the slab, as a share of that 10 m up`,
    ['w', '1'],
    0.6,
    [0.1, 1],
    {
      source: {
        kind: 'from memory',
        of: tr`the power law of wind with an exponent of 1/6, from 10 m to half a metre`,
      },
    },
  ),
  weather('weather.rain', tr`rain in an hour that counts as rain`, ['R', 'mm'], 0.1, [0.01, 5]),
  weather(
    'weather.film-hours',
    tr`hours after a coat that its film must not be too cold`,
    ['h', 'h'],
    12,
    [0, 72],
  ),
  weather('weather.film-coldest', tr`coldest for the film of a coat to form`, ['t', '°C'], 5, [-5, 20], {
    source: {
      kind: 'from memory',
      of: tr`minimum film-forming temperature, ISO 2115, 5–10 °C for usual latex`,
    },
    note: tr`Read it off the data sheet.`,
  }),
  weather('slab.absorptance', tr`share of the sun that bare concrete takes up`, ['a', '1'], 0.65, [0.1, 1], {
    note: tr`Light new concrete 0.5, weathered or dark 0.8; a dark coat more.`,
  }),
  weather('slab.outdoor', tr`heat given to air and sky, for each degree`, ['h', 'W/m²/K'], 17, [3, 60], {
    source: {
      kind: 'published',
      title: tr`ASHRAE Handbook of Fundamentals, as quoted on third-party pages`,
      edition: '',
      clause: tr`outdoor surfaces`,
    },
  }),
  weather('slab.sky', tr`what a clear sky takes off a level surface`, ['k', '°C'], 4, [0, 15], {
    source: {
      kind: 'published',
      title: tr`ASHRAE Handbook of Fundamentals, as quoted on third-party pages`,
      edition: '',
      clause: tr`long-wave correction of level surfaces`,
    },
  }),
  weather(
    'slab.lag',
    tr`time in which a slab goes two thirds of the way to a new temperature`,
    ['L', 'h'],
    1.5,
    [0.05, 24],
  ),
  weather(
    'weather.dry-before',
    tr`hours past touch dry in which neither rain nor dew may come`,
    ['h', 'h'],
    2,
    [0, 24],
  ),
  drying('drying.after-rain', tr`concrete after rain, until the next coat`, ['t0', 'h'], 12, [0, 200], {
    note: tr`Bare concrete that was soaked may want as long as after a wash; the plastic sheet shows it.`,
  }),
  drying('drying.after-dew', tr`concrete after dew, until the next coat`, ['t0', 'h'], 1, [0, 48]),
  drying('drying.touch-water', tr`touch dry of a water-borne coat`, ['t0', 'h'], 0.5, [0.05, 100], label),
  drying('drying.touch-solvent', tr`touch dry of a solvent-borne coat`, ['t0', 'h'], 1, [0.05, 100], label),
  drying('drying.touch-two-pack', tr`touch dry of a two-pack coat`, ['t1', 'h'], 4, [0.05, 100], label),
  drying('drying.recoat-water', tr`recoat of a water-borne coat`, ['t0', 'h'], 2, [0.1, 200], label),
  drying('drying.recoat-solvent', tr`recoat of a solvent-borne coat`, ['t0', 'h'], 4, [0.1, 200], label),
  drying('drying.recoat-two-pack', tr`recoat of a two-pack coat`, ['t1', 'h'], 12, [0.1, 200], label),
  drying('drying.foot-water', tr`feet on a water-borne coat`, ['t0', 'h'], 24, [1, 1000], label),
  drying('drying.foot-solvent', tr`feet on a solvent-borne coat`, ['t0', 'h'], 24, [1, 1000], label),
  drying('drying.foot-two-pack', tr`feet on a two-pack coat`, ['t1', 'h'], 24, [1, 1000], label),
  drying('drying.vehicle-water', tr`vehicles on a water-borne coat`, ['t0', 'h'], 168, [1, 2000], {
    note: tr`Sources give 72 hours to 7 days and more in cool weather; warm tyres lift what is young.`,
    choices: [
      { value: 168, source: { kind: 'common practice' } },
      { value: 72, source: { kind: 'common practice' } },
    ],
  }),
  drying('drying.vehicle-solvent', tr`vehicles on a solvent-borne coat`, ['t0', 'h'], 72, [1, 2000], label),
  drying('drying.vehicle-two-pack', tr`vehicles on a two-pack coat`, ['t1', 'h'], 72, [1, 2000], label),
  drying('drying.after-wash', tr`bare concrete after the last rinse`, ['t0', 'h'], 24, [1, 400], {
    note: tr`24 h warm and dry, 48–72 h cool or shaded; the plastic sheet overnight shows whether it is dry.`,
  }),
];

/** The value in force by its key; an unknown key is a bug. */
export const dayValue = valueLookup([...WORK_VALUES, ...DAY_VALUES]);
