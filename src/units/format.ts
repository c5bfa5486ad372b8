import { tr } from '../words/tr.ts';

/** How people see quantities. Stored values stay SI; this is the only place that turns them into text. */
export type UnitSystem = 'metric' | 'us';

const FT = 0.3048;
const GALLON = 3.785411784;
const MIL_UM = 25.4;

const fixed = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return /^-0(\.0+)?$/.test(text) ? text.slice(1) : text;
};

/** A length without its unit: metres to 0.01, feet to 0.01. */
export const lengthNumber = (m: number, units: UnitSystem, digits = 2): string =>
  fixed(units === 'us' ? m / FT : m, digits);

/** The heading a column of lengths has. */
export const lengthUnit = (units: UnitSystem): string => (units === 'us' ? 'ft' : 'm');

/** A length with its unit: metres, or feet and inches to a quarter inch. */
export function lengthText(m: number, units: UnitSystem): string {
  if (units === 'metric') return `${fixed(m, 2)} m`;
  const quarters = Math.round((m / 0.0254) * 4);
  const feet = Math.floor(quarters / 48);
  const inches = Math.floor((quarters % 48) / 4);
  const fraction = ['', ' 1/4', ' 1/2', ' 3/4'][quarters % 4]!;
  return `${feet}' ${inches}${fraction}"`;
}

/** An area without its unit: m² to 0.01, ft² to 0.1. */
export const areaNumber = (m2: number, units: UnitSystem): string =>
  units === 'us' ? fixed(m2 / (FT * FT), 1) : fixed(m2, 2);

/** The heading a column of areas has. */
export const areaUnit = (units: UnitSystem): string => (units === 'us' ? 'ft²' : 'm²');

/** An area with its unit. */
export const areaText = (m2: number, units: UnitSystem): string =>
  `${areaNumber(m2, units)} ${areaUnit(units)}`;

/** A volume without its unit: litres or US gallons to 0.01. */
export const volumeNumber = (litres: number, units: UnitSystem): string =>
  fixed(units === 'us' ? litres / GALLON : litres, 2);

/** The heading a column of volumes has. */
export const volumeUnit = (units: UnitSystem): string => (units === 'us' ? tr`US gal` : 'L');

const POUND = 0.45359237;
const OUNCE = 28.349523125;

/** A mass without its unit: kilograms or pounds to 0.01. */
export const massNumber = (kg: number, units: UnitSystem): string =>
  fixed(units === 'us' ? kg / POUND : kg, 2);

/** The heading a column of masses has. */
export const massUnit = (units: UnitSystem): string => (units === 'us' ? 'lb' : 'kg');

/** A small mass without its unit: whole grams, or ounces to 0.1. */
export const smallMassNumber = (g: number, units: UnitSystem): string =>
  units === 'us' ? fixed(g / OUNCE, 1) : fixed(g, 0);

/** The heading a column of small masses has. */
export const smallMassUnit = (units: UnitSystem): string => (units === 'us' ? 'oz' : 'g');

/** A film without its unit: whole micrometres, or mils to 0.1. */
export const filmNumber = (um: number, units: UnitSystem): string =>
  units === 'us' ? fixed(um / MIL_UM, 1) : fixed(um, 0);

/** The heading a column of films has. */
export const filmUnit = (units: UnitSystem): string => (units === 'us' ? 'mil' : 'µm');

/** The nap of a sleeve, without the word: millimetres, or inches as sleeves are sold, by eighths and the short ones by sixteenths. */
export function napText(mm: number, units: UnitSystem): string {
  if (units === 'metric') return `${plainNumber(mm)} mm`;
  const step = mm < 6 ? 1 : 2;
  const sixteenths = Math.max(1, step * Math.round(((mm / 25.4) * 16) / step));
  const whole = Math.floor(sixteenths / 16);
  const rest = sixteenths % 16;
  const shared = [8, 4, 2, 1].find((d) => rest % d === 0)!;
  const fraction = rest === 0 ? '' : `${rest / shared}/${16 / shared}`;
  return `${[whole || '', fraction].filter(Boolean).join(' ')} in`;
}

/** What a surface takes of something, in the unit it is counted in. */
export function amountNumber(value: number, unit: string, units: UnitSystem): string {
  if (unit === 'L') return volumeNumber(value, units);
  if (unit === 'kg') return massNumber(value, units);
  return unit === 'g' ? smallMassNumber(value, units) : fixed(value, 0);
}

/** The unit beside it. */
export const amountUnit = (unit: string, units: UnitSystem): string =>
  ({ L: volumeUnit(units), kg: massUnit(units), g: smallMassUnit(units) })[unit] ?? unitText(unit);

/** What is bought of something that comes in no packs: by weight as it is priced, and rounded up. */
export function boughtNumber(value: number, unit: string, units: UnitSystem): string {
  if (unit === 'L') return volumeNumber(value, units);
  return unit === 'kg' ? fixed(upToHundredth(value), 2) : fixed(Math.ceil(value - 1e-9), 0);
}

/** The unit beside it: 1 roll, 2 rolls. */
export const boughtUnit = (unit: string, units: UnitSystem, count: number): string =>
  unit === 'L' ? volumeUnit(units) : count === 1 ? oneOf(unit) : unitText(unit);

/** Up to the next hundredth, so that a little is not nothing. */
export const upToHundredth = (value: number): number => Math.max(0, Math.ceil(value * 100 - 1e-9) / 100);

/** A number with at most so many significant digits and no needless zeros; for workings. */
export function plainNumber(value: number, significant = 6): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e9) return String(value);
  return String(Number(value.toPrecision(significant)));
}

/** How a number in one of our units is shown and typed by people who use another; its own unit where none is usual. */
export interface ShownUnit {
  readonly unit: string;
  readonly show: (value: number) => number;
  readonly read: (shown: number) => number;
}

const by = (unit: string, factor: number): ShownUnit => ({
  unit,
  show: (value) => value * factor,
  read: (shown) => shown / factor,
});

const US: Readonly<Record<string, ShownUnit>> = {
  m: by('ft', 1 / FT),
  '°C': { unit: '°F', show: (c) => c * 1.8 + 32, read: (f) => (f - 32) / 1.8 },
  'm²': by('ft²', 1 / (FT * FT)),
  L: by(tr`US gal`, 1 / GALLON),
  'm²/L': by(tr`ft²/US gal`, GALLON / (FT * FT)),
  'm²/h': by('ft²/h', 1 / (FT * FT)),
  'm/h': by('ft/h', 1 / FT),
  'km/h': by('mph', 1 / 1.609344),
  µm: by('mil', 1 / MIL_UM),
};

const UNIT_WORDS: Readonly<Record<string, string>> = {
  days: tr`days`,
  packs: tr`packs`,
  people: tr`people`,
  pieces: tr`pieces`,
  rolls: tr`rolls`,
  'g/m² a day': tr`g/m² a day`,
};

/** A unit as it is written beside a number: words in the language of the page, symbols as they are everywhere. */
export const unitText = (unit: string): string => UNIT_WORDS[unit] ?? unit;

/** What one of a unit that is counted is called: `each piece`. */
export const oneOf = (unit: string): string =>
  ({ days: tr`day`, packs: tr`pack`, pieces: tr`piece`, rolls: tr`roll` })[unit] ?? unitText(unit);

/** The unit a person sees for one of ours. */
export const shownUnit = (unit: string, units: UnitSystem): ShownUnit =>
  (units === 'us' ? US[unit] : undefined) ?? { unit: unitText(unit), show: (v) => v, read: (v) => v };

/** The size of a pack: litres, or US gallons. */
export const packText = (litres: number, units: UnitSystem): string =>
  units === 'us' ? tr`${plainNumber(litres / GALLON, 3)} US gal` : `${plainNumber(litres)} L`;
