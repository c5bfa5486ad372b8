import type { Id } from '../../job/types.ts';
import { MEASURE_VALUES } from '../../takeoff/measure-values.ts';
import type { DefaultValue } from '../../working/default-value.ts';
import { GENERAL_VALUES } from '../values.ts';
import { solventBornePaving } from './solvent-borne-paving.ts';
import type { System } from './system.ts';
import { waterBornePaving } from './water-borne-paving.ts';

/** Every system, in the order they are offered. */
export const SYSTEMS: readonly System[] = [waterBornePaving, solventBornePaving];

/** The system by its id; null for an uncoated surface, or an id this program does not know. */
export const systemById = (id: Id | null): System | null => SYSTEMS.find((s) => s.id === id) ?? null;

/** Every value a user may replace: general ones, then each system's. */
export const ALL_VALUES: readonly DefaultValue[] = [
  ...GENERAL_VALUES,
  ...MEASURE_VALUES,
  ...SYSTEMS.flatMap((s) => s.coats.flatMap((c) => [c.solids, c.film, ...(c.thinning ? [c.thinning] : [])])),
];
