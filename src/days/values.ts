import { type DefaultValue, valueLookup, valuesOf } from '../working/default-value.ts';
import type { Source } from '../working/source.ts';

const weather = valuesOf('weather');
const drying = valuesOf('drying');

const bid: Source = {
  kind: 'published',
  title: 'an engineer’s bid specification',
  edition: '',
  clause: 'section 1.07',
};
const ufc: Source = {
  kind: 'published',
  title: 'UFC 3-190-06 Protective Coatings and Paints',
  edition: '16 January 2004',
  clause: '9.6.6: 5 °F',
};
const label = { note: 'Read it off the label, at 23 °C and 50 % humidity.' };

/** What go and wait, and drying times, start from; which the user may replace. */
export const DAY_VALUES: readonly DefaultValue[] = [
  weather('weather.margin', 'surface above the dew point, at least', ['m', '°C'], 3, [0, 20], {
    source: bid,
    note: 'Imperial texts say 5 °F, which is 2.78 °C; 3 °C is a little stricter.',
    choices: [
      { value: 3, source: bid },
      { value: 2.78, source: ufc },
    ],
  }),
  weather('weather.humidity', 'humidity of the air, at most', ['RH', '%'], 85, [30, 100], { source: bid }),
  weather(
    'weather.evaporation',
    'evaporation above which a water-borne wet edge is short',
    ['E', 'kg/m²/h'],
    0.5,
    [0.05, 5],
    { note: 'Half of what fresh concrete is guarded at; formulas for it are good to 40 % only.' },
  ),
  drying('drying.recoat-water', 'recoat of a water-borne coat', ['t0', 'h'], 2, [0.1, 200], label),
  drying('drying.recoat-solvent', 'recoat of a solvent-borne coat', ['t0', 'h'], 4, [0.1, 200], label),
  drying('drying.recoat-two-pack', 'recoat of a two-pack coat', ['t1', 'h'], 12, [0.1, 200], label),
];

/** The value in force by its key; an unknown key is a bug. */
export const dayValue = valueLookup(DAY_VALUES);
