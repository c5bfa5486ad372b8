import { toolById } from '../board/tools/index.ts';
import { keepLanguage, type Language, language } from '../words/language.ts';
import { tr } from '../words/tr.ts';
import { demoShown, showDemo } from './files.ts';
import { isWritten, keepOpened } from './keeping.ts';
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
  const { toolId, toolState, reading, writing, opening, saved } = store.getState();
  if (toolById(toolId).busy(toolState) || reading || writing || opening) {
    say(tr`Finish what is in hand first, or drop it: the page starts anew in the other language.`);
    return;
  }
  const demo = demoShown();
  // What was opened without being kept would be another job afterwards.
  if (saved === 'never' && !demo) await keepOpened();
  if (!(await allKept())) {
    say(tr`The job cannot be kept now, and another language starts the page anew: save it to a file first.`);
    return;
  }
  if (keepLanguage(chosen) && leavePlace(demo)) location.reload();
  else say(tr`The browser lets nothing be kept here, the language neither: set the browser itself to it.`);
}

const PLACE = 'slabwright place';

type Place = Pick<AppState, 'station' | 'dock'> & { readonly demo: string | null };

function leavePlace(demo: string | null): boolean {
  const { station, dock } = store.getState();
  const place: Place = { station, dock, demo };
  try {
    sessionStorage.setItem(PLACE, JSON.stringify(place));
    return true;
  } catch {
    return false;
  }
}

/** Goes back to where somebody was when the page was started anew in another language. */
export async function comeBack(): Promise<void> {
  let left: string | null = null;
  try {
    left = sessionStorage.getItem(PLACE);
    sessionStorage.removeItem(PLACE);
  } catch {
    // Storage is switched off: the page begins where it always does.
  }
  if (!left) return;
  const { demo, station, dock } = JSON.parse(left) as Place;
  if (demo) await showDemo(demo);
  store.setState({ station, dock });
}

async function allKept(): Promise<boolean> {
  const until = performance.now() + KEPT_WITHIN_MS;
  while (!isWritten()) {
    if (performance.now() > until) return false;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return true;
}
