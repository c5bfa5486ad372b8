import { tr } from '../words/tr.ts';

/** How the desk looks: usual, in bright sun, or at night. A matter of the device, not of the job. */
export const THEMES = ['usual', 'sunlight', 'night'] as const;
export type Theme = (typeof THEMES)[number];

export const THEME_WORDS: Readonly<Record<Theme, string>> = {
  usual: tr`usual`,
  sunlight: tr`for bright sun`,
  night: tr`for the night`,
};

const KEY = 'slabwright look';

/** The theme that was chosen on this device; the usual one where nothing can be kept. */
export function keptTheme(): Theme {
  try {
    return THEMES.find((t) => t === localStorage.getItem(KEY)) ?? 'usual';
  } catch {
    return 'usual';
  }
}

/** Puts a theme on the page and keeps it for the next visit. */
export function wearTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // Without storage it lasts until the page is left.
  }
}
