import { tr } from '../words/tr.ts';
import { formula } from '../working/formula.ts';

const derived = (from: string) => ({ kind: 'derived', from }) as const;

/** Ramp: ground covered by a sloping slab, from its plan. */
export const slopeFactor = formula(
  's',
  '1',
  'sqrt(1 + g^2)',
  { g: '1' },
  derived(tr`geometry of the right triangle`),
);

/** What is left of a zone's face. */
export const netArea = formula(
  'A',
  'm²',
  '(F - V) * s',
  { F: 'm²', V: 'm²', s: '1' },
  derived(tr`outline by coordinates (Green), arcs by r²(θ − sin θ)/2`),
);

/** Area of the faces that stand up along one side. */
export const faceUp = formula(
  'U',
  'm²',
  'l * h',
  { l: 'm', h: 'm' },
  derived(tr`length of the side by the height of its face`),
);

/** What is coated: ground and faces up. */
export const coatedArea = formula(
  'A',
  'm²',
  'N + U',
  { N: 'm²', U: 'm²' },
  derived(tr`net area and the faces up along its sides`),
);

/** What is left to the roller. */
export const rollerArea = formula(
  'R',
  'm²',
  'A - b',
  { A: 'm²', b: 'm²' },
  derived(tr`net area less the band that is brushed`),
);

/** Corners by themselves, what moves them all, and the grid as limits ±g. */
export const areaUncertainty = formula(
  'u',
  'm²',
  'sqrt(P^2 + F^2 + g^2 / 3)',
  { P: 'm²', F: 'm²', g: 'm²' },
  derived(tr`law of propagation of uncertainty; the three have nothing to do with each other`),
);

export const lengthUncertainty = formula(
  'u',
  'm',
  'sqrt(P^2 + F^2)',
  { P: 'm', F: 'm' },
  derived(tr`law of propagation of uncertainty; the two have nothing to do with each other`),
);

/** The interval that holds the true value in 95 of 100 cases. */
export const within95 = formula(
  'U',
  'm²',
  '1.96 * u',
  { u: 'm²' },
  {
    kind: 'published',
    title: tr`JCGM 100 (guide to the expression of uncertainty in measurement)`,
    edition: '2008',
    clause: tr`6.2 and G.1.3, from memory`,
  },
);
