import { tr } from '../words/tr.ts';
import { formula } from '../working/formula.ts';
import { commonPractice, type Source } from '../working/source.ts';

const wmo: Source = {
  kind: 'published',
  title: tr`WMO-No. 8, guide to meteorological instruments, as quoted in a weather station’s manual`,
  edition: '',
  clause: tr`annex 4.B`,
};
const uno: Source = {
  kind: 'published',
  title: tr`P. J. Uno, ACI Materials Journal 95-M34, as quoted on a third-party page`,
  edition: tr`July 1998`,
  clause: tr`single operation formula`,
};

/** Pressure of water vapour over water at which air is saturated. */
export const saturationPressure = formula(
  'e',
  'hPa',
  'p * exp(17.62 * t / (243.12 + t))',
  { p: 'hPa', t: '°C' },
  wmo,
);

/** The logarithm that the dew point is found from. */
export const dewLogarithm = formula(
  'g',
  '1',
  'log(RH / 100) + 17.62 * t / (243.12 + t)',
  { RH: '%', t: '°C' },
  wmo,
);

/** Temperature at which the air's vapour condenses. */
export const dewPoint = formula('Td', '°C', '243.12 * g / (17.62 - g)', { g: '1' }, wmo);

/** How far a surface is above the dew point. */
export const dewMargin = formula(
  'm',
  '°C',
  'Ts - Td',
  { Ts: '°C', Td: '°C' },
  {
    kind: 'published',
    title: tr`an engineer’s bid specification`,
    edition: '',
    clause: tr`5 °F (3 °C) above the dew point`,
  },
);

/** Humidity of the air that touches a surface. */
export const humidityAtSurface = formula('RHs', '%', '100 * ed / es', { ed: 'hPa', es: 'hPa' }, wmo);

/** Water that evaporates from a wet surface; air r of saturation, wind at half a metre. */
export const evaporation = formula(
  'E',
  'kg/m²/h',
  '5 * ((Tc + 18)^2.5 - RH / 100 * (Ta + 18)^2.5) * (V + 4) * 10^(-6)',
  { Tc: '°C', RH: '%', Ta: '°C', V: 'km/h' },
  uno,
);

/** The same in US customary units, as ready-mix practice prints it. */
export const evaporationUs = formula(
  'E',
  'lb/ft²/h',
  '(Tc^2.5 - RH / 100 * Ta^2.5) * (1 + 0.4 * V) * 10^(-6)',
  { Tc: '°F', RH: '%', Ta: '°F', V: 'mph' },
  {
    kind: 'published',
    title: tr`a ready-mix information page, attributed to ACI practice`,
    edition: '',
    clause: '',
  },
);

/** The older formula it is compared with. */
export const evaporationMenzel = formula(
  'E',
  'kg/m²/h',
  '0.315 * (ec - RH / 100 * ea) / 10 * (0.253 + 0.06 * V)',
  { ec: 'hPa', RH: '%', ea: 'hPa', V: 'km/h' },
  { kind: 'from memory', of: tr`Menzel 1954 in SI units` },
);

/** Recoat time of a water-borne coat: longer where water leaves more slowly than in the label's climate, never shorter. */
export const recoatByEvaporation = formula(
  't',
  'h',
  't0 * max(1, Er / E)',
  { t0: 'h', Er: 'kg/m²/h', E: 'kg/m²/h' },
  commonPractice,
);

/** Time of a reaction-cured coat: twice as long for every 10 °C less. */
export const cureByTemperature = formula(
  't',
  'h',
  't1 * 2^((T1 - T2) / 10)',
  { t1: 'h', T1: '°C', T2: '°C' },
  {
    kind: 'published',
    title: tr`several trade articles`,
    edition: '',
    clause: tr`at 10 °C twice the time of 20 °C, at 30 °C half; a rule of thumb`,
  },
);

/** The same for a solvent-borne coat, which no source scales: by analogy. */
export const dryByTemperature = formula(
  't',
  'h',
  't1 * 2^((T1 - T2) / 10)',
  { t1: 'h', T1: '°C', T2: '°C' },
  commonPractice,
);

/** The least time that the water of a film takes to leave. */
export const firstDrying = formula(
  't',
  'min',
  '60 * W * (1 - VS / 100) / 1000 / E',
  { W: 'µm', VS: '%', E: 'mm/h' },
  { kind: 'derived', from: tr`water of the film by the rate it evaporates at; 1 kg/m² of water is 1 mm` },
);

const handbook: Source = {
  kind: 'published',
  title: tr`ASHRAE Handbook of Fundamentals, sol-air temperature, as quoted on third-party pages`,
  edition: '',
  clause: tr`correction 4 K for horizontal surfaces, 0 for vertical ones; 17 W/m²K outdoors`,
};

/** Temperature of air that would heat a surface as sun, sky and air do together. */
export const solAir = formula(
  'Te',
  '°C',
  'Ta + a * G / h - k',
  { Ta: '°C', a: '1', G: 'W/m²', h: 'W/m²/K', k: '°C' },
  handbook,
);

/** Sun on level ground under a clear sky, from its height. */
export const clearSun = formula(
  'G0',
  'W/m²',
  'max(0, 910 * s - 30)',
  { s: '1' },
  {
    kind: 'from memory',
    of: tr`Kasten and Czeplak 1980`,
  },
);

/** What clouds leave of it; n is the share of the sky they cover. */
export const cloudySun = formula(
  'G',
  'W/m²',
  'G0 * (1 - 0.75 * n^3.4)',
  { G0: 'W/m²', n: '1' },
  {
    kind: 'from memory',
    of: tr`Kasten and Czeplak 1980`,
  },
);
