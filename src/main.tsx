import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { DEMOS } from './app/demos.ts';
import { showDemo } from './app/files.ts';
import { startDesk } from './app/keeping.ts';
import './app/desk.css';
import './app/stations.css';

await startDesk(() => showDemo(DEMOS[0]!.id));
createRoot(document.getElementById('desk')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
