/** Inks that only the board has: what is in hand, what guides the hand, what is being rolled. */
export const IN_HAND = '#c2410c';
/** Fresh paint in the order of rolling. */
export const WET = '#6fb0a8';
export const NOW = '#f0a873';
export const GUIDE = '#0f766e';
export const GRID_FINE = '#e3e7ea';
export const GRID_BOLD = '#c3cbd2';

/** Groups in the table, light to dark; the label on the board says which is which. */
export const GROUP_TINTS: readonly string[] = [
  'rgba(255, 246, 219, 0.78)',
  'rgba(206, 228, 214, 0.78)',
  'rgba(158, 200, 208, 0.78)',
  'rgba(120, 160, 190, 0.78)',
  'rgba(104, 120, 160, 0.8)',
];
