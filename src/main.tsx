import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { DEMOS } from './app/demos.ts';
import { comeBack } from './app/device.ts';
import { showDemo } from './app/files.ts';
import { workInstalled } from './app/installed.ts';
import { startDesk } from './app/keeping.ts';
import { Mishap } from './app/mishap.tsx';
import { settle } from './app/settling.ts';
import { sayProblem } from './app/store.ts';
import { keptTheme, wearTheme } from './app/theme.ts';
import { language } from './words/language.ts';
import { tr } from './words/tr.ts';
import './app/desk.css';
import './app/stations.css';
import './app/themes.css';

document.documentElement.lang = language;
wearTheme(keptTheme());

const onFault = (fault: unknown): void =>
  sayProblem({ code: 'program/fault', detail: fault instanceof Error ? fault.message : String(fault) });
// Some browsers tell of harmless things (a size that changed twice in a frame) without an error.
addEventListener('error', ({ error }) => error && onFault(error));
addEventListener('unhandledrejection', (event) => onFault(event.reason));

settle();
await startDesk(() => showDemo(DEMOS[0]!.id));
await comeBack();
workInstalled();
createRoot(document.getElementById('desk')!).render(
  <StrictMode>
    <Mishap part={tr`The desk`}>
      <App />
    </Mishap>
  </StrictMode>,
);
