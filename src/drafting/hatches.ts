import type { Texture } from '../job/types.ts';

/** An ellipse of a hatch, turned about its middle. */
interface Stone {
  readonly x: number;
  readonly y: number;
  readonly rx: number;
  readonly ry: number;
  readonly turnRad: number;
}

/**
 * One tile of a hatch, repeated both ways, in the spirit of drafting practice for concrete finishes. Units are pixels of
 * the screen; one of them is `HATCH_MM` on paper. Patterns are told apart without colour.
 */
export interface Hatch {
  readonly size: number;
  /** Thickness of the lines that run up to the right, corner to corner; none where absent. */
  readonly diagonal?: number;
  readonly dots?: { readonly radius: number; readonly at: ReadonlyArray<readonly [number, number]> };
  readonly stones?: { readonly line: number; readonly at: readonly Stone[] };
}

/** Millimetres on paper of a unit of a hatch. */
export const HATCH_MM = 0.2;

/** How much of the ink a hatch has. */
export const HATCH_OPACITY = 0.5;

/** Trowelled is plain, brooms are fine or wide lines, stipple dots, exposed aggregate small rounded outlines. */
export const HATCHES: Readonly<Record<Texture, Hatch | null>> = {
  trowelled: null,
  'light-broom': { size: 8, diagonal: 0.8 },
  'heavy-broom': { size: 18, diagonal: 2.4 },
  stipple: {
    size: 14,
    dots: {
      radius: 1.5,
      at: [
        [3.5, 3.5],
        [10.5, 10.5],
      ],
    },
  },
  'exposed-aggregate': {
    size: 26,
    stones: {
      line: 1.1,
      at: [
        { x: 6.5, y: 5.7, rx: 4.6, ry: 3.2, turnRad: 0.4 },
        { x: 18.7, y: 9.4, rx: 3.4, ry: 2.8, turnRad: 1.2 },
        { x: 8.8, y: 18.2, rx: 3.2, ry: 4.2, turnRad: 0.2 },
        { x: 20.3, y: 20.8, rx: 4, ry: 2.8, turnRad: 2.4 },
      ],
    },
  },
};
