import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './look/fonts.css';
import './look/tokens.css';
import './look/base.css';
import { App, keepOffline, putOnTheme } from './shell/index.ts';
import { Home } from './stages/home/index.ts';
import { STAGES } from './stages/index.ts';

putOnTheme();
createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <App Home={Home} stages={STAGES} />
  </StrictMode>,
);
keepOffline();
