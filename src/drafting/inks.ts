import type { Traffic } from '../job/types.ts';

/** Inks of every drawing, on the screen and on paper. */
export const INK = '#17202a';
export const QUIET = '#5b6672';
export const PAPER = '#ffffff';
export const VOID_FILL = '#e7e5df';

/** A colour and how much of it covers what lies beneath. */
export interface Tint {
  readonly rgb: readonly [number, number, number];
  readonly opacity: number;
}

/** Traffic is told by lightness alone, so that it holds for every kind of colour sight. */
export const TRAFFIC_TINTS: Readonly<Record<Traffic, Tint>> = {
  foot: { rgb: [255, 246, 219], opacity: 0.72 },
  cars: { rgb: [166, 205, 226], opacity: 0.72 },
  heavy: { rgb: [98, 143, 178], opacity: 0.78 },
};

/** The tint as a style sheet writes it, to lie over a picture. */
export const tintOver = ({ rgb, opacity }: Tint): string => `rgba(${rgb.join(', ')}, ${opacity})`;

/** The tint on white paper. */
export const tintOnPaper = ({ rgb, opacity }: Tint): string =>
  `#${rgb
    .map((c) =>
      Math.round(255 + (c - 255) * opacity)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
