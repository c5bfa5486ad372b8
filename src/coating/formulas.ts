import { tr } from '../words/tr.ts';
import { formula } from '../working/formula.ts';
import { commonPractice, type Source } from '../working/source.ts';
import { maturity } from './sources.ts';

const derived = (from: string): Source => ({ kind: 'derived', from });

/** The published rule is for paint as it comes; thinner leaves no film, which is arithmetic. */
const filmRule = derived(
  tr`dry film = wet film × volume solids (UFC 3-190-06, 16 January 2004, Procedure 13); thinner leaves no film`,
);

/** Theoretical spreading rate of neat paint; 10 turns % and µm into m²/L. */
export const spreadingRate = formula(
  'S',
  'm²/L',
  '10 * VS / D',
  { VS: '%', D: 'µm' },
  derived(tr`arithmetic: 1 L at 1 µm covers 1000 m²`),
);

/** The rate as somebody states it. */
export const statedRate = formula(
  'S',
  'm²/L',
  'R',
  { R: 'm²/L' },
  {
    kind: 'derived',
    from: tr`the spreading rate on the tin goes before one from solids and film`,
  },
);

/** Thinned paint spread as thick as neat paint would be: each litre of paint goes further. */
export const rateHoldingWet = formula(
  'S',
  'm²/L',
  'S0 * (1 + T)',
  { S0: 'm²/L', T: '1' },
  derived(tr`the mix is spread at the wet film of neat paint; a litre of paint makes 1 + T litres of mix`),
);

/** Paint for a surface: area, texture, spreading rate and pores, and the share that does not end as film. */
export const paintLitres = formula(
  'P',
  'L',
  '(A * k / S + A * d / (1000 * (1 + T))) / (1 - L)',
  { A: 'm²', k: '1', S: 'm²/L', d: 'mL/m²', T: '1', L: '1' },
  derived(tr`litres = area / practical rate, and the pores filled with the mix; practical = ideal × (1 − L)`),
);

/** Thinner for a paint, T by volume of paint. */
export const thinnerLitres = formula(
  'W',
  'L',
  'P * T',
  { P: 'L', T: '1' },
  derived(tr`thinner is given by volume of paint`),
);

/** A share of the finished mix as a share of the paint. */
export const thinningOfMix = formula(
  'T',
  '1',
  'x / (1 - x)',
  { x: '1' },
  derived(tr`x of the mix is thinner, 1 − x is paint`),
);

/** A share of the paint is what T means already. */
export const thinningOfPaint = formula(
  'T',
  '1',
  'x',
  { x: '1' },
  derived(tr`thinner is given by volume of paint`),
);

/** Wet film that dries to D, thinned by T. */
export const wetFilm = formula(
  'WFT',
  'µm',
  'D * (1 + T) / (VS / 100)',
  { D: 'µm', T: '1', VS: '%' },
  filmRule,
);

/** Wet film of a mix spread at a rate. */
export const wetFilmAtRate = formula(
  'WFT',
  'µm',
  '1000 * (1 + T) / S',
  { S: 'm²/L', T: '1' },
  derived(tr`arithmetic: 1 L of mix on 1 m² is 1000 µm; a litre of paint makes 1 + T litres of mix`),
);

/** Dry film left by a wet film of thinned paint. */
export const dryFilm = formula(
  'DFT',
  'µm',
  'WFT * (VS / 100) / (1 + T)',
  { WFT: 'µm', VS: '%', T: '1' },
  filmRule,
);

/** Volume solids of thinned paint. */
export const thinnedSolids = formula(
  'VS',
  '%',
  'VS0 / (1 + T)',
  { VS0: '%', T: '1' },
  derived(tr`arithmetic; contraction of the mix ignored`),
);

/** Organic vapour in a litre of thinned paint. */
export const thinnedVoc = formula(
  'V',
  'g/L',
  '(V0 + T * r) / (1 + T)',
  { V0: 'g/L', T: '1', r: 'g/L' },
  derived(tr`arithmetic: what the paint holds and what the thinner adds, in a larger volume`),
);

/** A texture multiplier from paint used on a known area. */
export const trialMultiplier = formula(
  'k',
  '1',
  '(V * (1 - L) / A - d / (1000 * (1 + T))) * S',
  { V: 'L', L: '1', A: 'm²', d: 'mL/m²', T: '1', S: 'm²/L' },
  derived(tr`the formula for litres of neat paint, turned round`),
);

const conjugate: Source = {
  kind: 'derived',
  from: tr`Bayes’ rule for a normal mean with known variance, on logarithms: weights are 1/variance`,
};

/** A multiplier that has learnt from n trials of geometric mean m. */
export const learntMultiplier = formula(
  'k',
  '1',
  'exp((log(k0) / s^2 + n * log(m) / t^2) / (1 / s^2 + n / t^2))',
  { k0: '1', s: '1', n: '1', m: '1', t: '1' },
  conjugate,
);

/** What is left of a spread after n trials. */
export const learntSpread = formula(
  's',
  '1',
  '1 / sqrt(1 / s0^2 + n / t^2)',
  { s0: '1', n: '1', t: '1' },
  conjugate,
);

/** Acid for bare concrete. */
export const etchKilograms = formula('K', 'kg', 'A / e', { A: 'm²', e: 'm²/kg' }, commonPractice);

/** Water for the acid. */
export const etchWater = formula('H', 'L', 'K * w', { K: 'kg', w: 'L/kg' }, commonPractice);

/** Grip additive for the coat it goes into. */
export const additiveGrams = formula('G', 'g', 'P * d', { P: 'L', d: 'g/L' }, commonPractice);

/** Soda that would neutralise all of an acid. */
export const neutraliserKilograms = formula(
  'N',
  'kg',
  'K * b',
  { K: 'kg', b: 'kg/kg' },
  {
    kind: 'derived',
    from: tr`stoichiometry`,
  },
);

/** Water to wet and to rinse etched concrete. */
export const rinseWater = formula('H', 'L', 'A * (w + q)', { A: 'm²', w: 'L/m²', q: 'L/m²' }, commonPractice);

/** Days of curing that count as much as d at 20 °C, and never fewer than d. */
export const curedDays = formula('D', 'd', 'd * max(1, 30 / (t + 10))', { d: 'd', t: '°C' }, maturity);

/** The part of a coat's paint that is brushed: the band along cut-in edges, and faces up. */
export const brushedLitres = formula(
  'B',
  'L',
  'P * (b + U) / A',
  { P: 'L', b: 'm²', U: 'm²', A: 'm²' },
  derived(tr`paint by share of the area`),
);

/** Acid in a wash, in moles of H⁺ for each square metre: citric from its mass. */
export const citricEquivalents = formula(
  'n',
  'mol/m²',
  '3 * m / 192.124',
  { m: 'g/m²' },
  {
    kind: 'derived',
    from: tr`three moles of H⁺ a mole; 192.124 g/mol anhydrous`,
  },
);

/** The same for hydrochloric acid of a mass share and density spread over an area. */
export const hydrochloricEquivalents = formula(
  'n',
  'mol/m²',
  'w * rho / 36.461 / c',
  { w: '1', rho: 'g/L', c: 'm²/L' },
  derived(tr`one mole of H⁺ a mole; 36.461 g/mol`),
);

/** The same for sulfamic acid from its mass. */
export const sulfamicEquivalents = formula(
  'n',
  'mol/m²',
  'm / 97.09',
  { m: 'g/m²' },
  derived(tr`one mole of H⁺ a mole; 97.09 g/mol`),
);

/** Mean texture depth from a patch of sand. */
export const sandPatch = formula(
  'MTD',
  'mm',
  '4000 * V / (3.141592653589793 * D^2)',
  { V: 'mL', D: 'mm' },
  {
    kind: 'published',
    title: tr`ASTM E965, as given in a student’s laboratory sheet`,
    edition: '2015',
    clause: tr`volume over the circle it covers; below 0.3 mm it tells nothing`,
  },
);

const proposed: Source = derived(
  tr`a model of triangular grooves, proposed here and not published: the true surface over the plan, and a share of its depth that fills`,
);

/** True surface over plan of grooves of a depth and a pitch. */
export const roughness = formula('R', '1', 'sqrt(1 + (4 * MTD / p)^2)', { MTD: 'mm', p: 'mm' }, proposed);

/** Mix that a rough surface takes for a wet film. */
export const roughConsumption = formula(
  'q',
  'mL/m²',
  'WFT * R + 1000 * f * MTD',
  { WFT: 'mL/m²', R: '1', f: '1', MTD: 'mm' },
  proposed,
);

/** Friction that a pendulum value stands for. */
export const pendulumFriction = formula(
  'mu',
  '1',
  '3 * P / (330 - P)',
  { P: '1' },
  {
    kind: 'from memory',
    of: tr`UKSRG guidelines`,
  },
);

/** Friction a ramp needs to be as safe as the level. */
export const rampFriction = formula(
  'mu',
  '1',
  '(mu0 + g) / (1 - mu0 * g)',
  { mu0: '1', g: '1' },
  derived(tr`forces on a slope`),
);

/** The pendulum value that stands for a friction. */
export const frictionPendulum = formula(
  'P',
  '1',
  '330 * mu / (3 + mu)',
  { mu: '1' },
  { kind: 'from memory', of: tr`UKSRG guidelines` },
);

/** Moisture vapour from pounds a thousand square feet a day. */
export const vapourRate = formula(
  'q',
  'g/m²/d',
  '4.88243 * l',
  { l: 'lb/1000 ft²/d' },
  {
    kind: 'derived',
    from: tr`453.59237 g a pound, 92.90304 m² a thousand square feet`,
  },
);

/** The bay that is rolled before its edge sets. */
export const wetEdgeBay = formula('B', 'm²', 'r * t / 60', { r: 'm²/h', t: 'min' }, commonPractice);
