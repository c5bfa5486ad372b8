import type { Cause } from './plan.ts';

const SLAB = 1e15;
const CUT = 2e15;
const VOID = 3e15;
/** Between two numbers that make up one rank. */
const STEP = 1e7;

/** One number for each cause; stretches come in this order. A side of the slab's outline is added by `onSide`. */
export const rank = {
  side: 0,
  slab: (slab: number): number => SLAB + slab,
  cut: (cut: number, zone: number): number => CUT + cut * STEP + zone,
  void: (index: number): number => VOID + index,
};

/** A slab's outline is told apart by its sides; cuts and voids are not. */
export const onSide = (r: number, side: number): number => (r < SLAB ? side : r < CUT ? r + side * STEP : r);

export function causeOf(r: number): Cause {
  if (r < SLAB) return { kind: 'side', side: r };
  if (r >= VOID) return { kind: 'void', void: r - VOID };
  const pair = r - (r < CUT ? SLAB : CUT);
  const high = Math.floor(pair / STEP);
  const low = pair - high * STEP;
  return r < CUT ? { kind: 'slab', slab: low, side: high } : { kind: 'cut', cut: high, zone: low };
}

/** Whether a rank is of a plain side of the slab's outline. */
export const isPlainSide = (r: number): boolean => r < SLAB;

/** Whether a rank names a side. */
export const namesSide = (r: number): boolean => r < CUT;
