import { keepLanguage, type Language, language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import { type AppState, say, store } from './store.ts';
import { type Theme, wearTheme } from './theme.ts';

/** How long the last step may take to reach the disk before the page is not started anew. */
const KEPT_WITHIN_MS = 3000;

/** Puts a look on; the page renders anew. */
export function wear(theme: Theme): void {
  wearTheme(theme);
  store.setState({ theme });
}

/** Starts the page anew in another language, once all that was entered is on the disk. */
export async function speak(chosen: Language): Promise<void> {
  if (chosen === language) return;
  if (!keepLanguage(chosen))
    say(tr`The browser lets nothing be kept here, the language neither: set the browser itself to it.`);
  else if (await allKept()) {
    leavePlace();
    location.reload();
  } else
    say(tr`The job is not kept yet: save it to a file; the language changes when the page is opened again.`);
}

const PLACE = 'slabwright place';

function leavePlace(): void {
  const { station, dock } = store.getState();
  sessionStorage.setItem(PLACE, JSON.stringify({ station, dock }));
}

/** Goes back to the station that was open when the page was started anew in another language. */
export function comeBack(): void {
  try {
    const left = sessionStorage.getItem(PLACE);
    sessionStorage.removeItem(PLACE);
    if (left) store.setState(JSON.parse(left) as Pick<AppState, 'station' | 'dock'>);
  } catch {
    // Storage is switched off: the page begins where it always does.
  }
}

async function allKept(): Promise<boolean> {
  const until = performance.now() + KEPT_WITHIN_MS;
  while (store.getState().saved === 'no') {
    if (performance.now() > until) return false;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return true;
}
