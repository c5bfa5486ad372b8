import { formula } from '../working/formula.ts';

const derived = (from: string) => ({ kind: 'derived', from }) as const;

/** Ramp: ground covered by a sloping slab, from its plan. */
export const slopeFactor = formula(
  's',
  '1',
  'sqrt(1 + g^2)',
  { g: '1' },
  derived('geometry of the right triangle'),
);

/** What is left of a zone's face. */
export const netArea = formula(
  'A',
  'm²',
  '(F - V) * s',
  { F: 'm²', V: 'm²', s: '1' },
  derived('outline by coordinates (Green), arcs by r²(θ − sin θ)/2'),
);
