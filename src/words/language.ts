/** The languages that the program speaks, by their BCP 47 tags. */
export const LANGUAGES = ['en', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** What each language calls itself. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', es: 'Español' };

const KEPT_AS = 'slabwright language';

/**
 * The language of this page, worker or command, found once when the program starts: a change of it starts the
 * page anew. A worker is told by its name, as it has no way to what a person chose; a command goes by the
 * locale of its terminal, as commands do.
 */
export const language: Language = found();

function found(): Language {
  if (typeof document !== 'undefined') return spoken([kept() ?? '', ...navigator.languages]);
  if ('WorkerGlobalScope' in globalThis) return spoken([(globalThis as { name?: string }).name ?? '']);
  const { LC_ALL, LC_MESSAGES, LANG } = globalThis.process?.env ?? {};
  return spoken([LC_ALL || LC_MESSAGES || LANG || '']);
}

/** The first of some tags that is spoken here; English where none is. */
function spoken(tags: readonly string[]): Language {
  for (const tag of tags) {
    const known = LANGUAGES.find((l) => tag.toLowerCase().split(/[-_.]/)[0] === l);
    if (known) return known;
  }
  return 'en';
}

function kept(): string | null {
  try {
    return localStorage.getItem(KEPT_AS);
  } catch {
    // Storage is switched off; the browser's own languages hold.
    return null;
  }
}

/** Keeps a choice of language on this device. @returns whether it could be kept */
export function keepLanguage(chosen: Language): boolean {
  try {
    localStorage.setItem(KEPT_AS, chosen);
    return true;
  } catch {
    return false;
  }
}
