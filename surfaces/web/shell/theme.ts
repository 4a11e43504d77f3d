/** Day, or night in the tent; kept on the device. */
import { useSyncExternalStore } from 'react';

export type Theme = 'day' | 'night';

const KEY = 'stillstand.theme';
const listeners = new Set<() => void>();

const kept = (): Theme => (localStorage.getItem(KEY) === 'night' ? 'night' : 'day');

/** Read at every drawing: from the page, because asking the device holds the page up. */
const shown = (): Theme => (document.documentElement.dataset['theme'] === 'night' ? 'night' : 'day');

/** Puts the theme on the page; called once before anything is drawn, so that nothing flashes white in the dark. */
export function putOnTheme(theme: Theme = kept()): void {
  document.documentElement.dataset['theme'] = theme;
  const paper = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim();
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', paper);
}

function setTheme(theme: Theme): void {
  localStorage.setItem(KEY, theme);
  putOnTheme(theme);
  for (const listener of listeners) listener();
}

export function useTheme(): { theme: Theme; setTheme: (theme: Theme) => void } {
  const theme = useSyncExternalStore((listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }, shown);
  return { theme, setTheme };
}
