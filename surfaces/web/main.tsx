import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './look/fonts.css';
import './look/tokens.css';
import './look/base.css';
import { App } from './shell/app.tsx';
import { keepOffline } from './shell/offline.ts';
import { putOnTheme } from './shell/theme.ts';

putOnTheme();
createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
keepOffline();
