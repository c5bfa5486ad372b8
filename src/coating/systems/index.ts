import type { Id } from '../../job/types.ts';
import { MEASURE_VALUES } from '../../takeoff/measure-values.ts';
import type { DefaultValue } from '../../working/default-value.ts';
import { GENERAL_VALUES } from '../values.ts';
import { penetratingSealer } from './penetrating-sealer.ts';
import { solventBornePaving } from './solvent-borne-paving.ts';
import { type Product, productValues, type System, systemValues } from './system.ts';
import { twoPackEpoxy } from './two-pack-epoxy.ts';
import { waterBornePaving } from './water-borne-paving.ts';

/** Every system, in the order they are offered. */
export const SYSTEMS: readonly System[] = [
  waterBornePaving,
  solventBornePaving,
  penetratingSealer,
  twoPackEpoxy,
];

/** The system by its id; null for an uncoated surface, or an id this program does not know. */
export const systemById = (id: Id | null): System | null => SYSTEMS.find((s) => s.id === id) ?? null;

/** Every product of every system, once. */
export const PRODUCTS: readonly Product[] = [
  ...new Map(SYSTEMS.flatMap((s) => s.coats.map((c) => [c.product.id, c.product] as const))).values(),
];

/** The primers that may be asked for instead of a system's own. */
export const PRIMERS: readonly Product[] = PRODUCTS.filter((p) => p.kind === 'primer');

/** Every value a user may replace: general ones, then each system's and product's. */
export const ALL_VALUES: readonly DefaultValue[] = [
  ...GENERAL_VALUES,
  ...MEASURE_VALUES,
  ...SYSTEMS.flatMap(systemValues),
  ...PRODUCTS.flatMap(productValues),
];
