import type { Condition, Preparation, Surface } from '../job/types.ts';
import { tr } from '../words/tr.ts';
import type { System } from './systems/system.ts';

/** How a surface of a condition is made ready unless the user says otherwise. */
const USUAL: Readonly<Record<Condition, Preparation>> = {
  bare: 'etch',
  coloured: 'etch',
  painted: 'abrade',
  sealed: 'grind',
  patterned: 'grind',
};

export const PREPARATION_NAMES: Readonly<Record<Preparation, string>> = {
  etch: tr`etch, rinse and let dry`,
  grind: tr`grind, vacuum and wash`,
  abrade: tr`abrade and wash`,
  wash: tr`wash and let dry`,
};

/** The preparation in force. What soaks in needs open pores and no profile. */
export const preparationOf = (surface: Surface, system: System): Preparation =>
  surface.preparation ||
  (system.needs === 'open pores' && USUAL[surface.condition] === 'etch' ? 'wash' : USUAL[surface.condition]);

/** Whether a coat meets concrete: bare, or bared by taking a sealer off. */
export const isBare = (condition: Condition): boolean => condition !== 'painted';
