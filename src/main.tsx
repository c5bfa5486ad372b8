import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { startDesk } from './app/autosave.ts';
import './app/desk.css';
import './app/stations.css';

await startDesk();
createRoot(document.getElementById('desk')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
