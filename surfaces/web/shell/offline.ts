/**
 * Keeps the app on the device for work without network, and offers a newer build when it has arrived. A page is loaded
 * again only by the press of a person in that very window: what is typed there and not saved would be lost.
 */
import { useSyncExternalStore } from 'react';

/** A newer build: it waits to be taken, or it was taken in another window and this page is still the old one. */
export interface NewerBuild {
  readonly isTakenElsewhere: boolean;
  /** Loads this page again from the newer build. */
  take(): void;
}

let newer: NewerBuild | null = null;
const listeners = new Set<() => void>();

const tell = (build: NewerBuild | null): void => {
  newer = build;
  for (const listener of listeners) listener();
};

export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  const hadOne = serviceWorker.controller !== null;
  let isAskedHere = false;
  serviceWorker.addEventListener('controllerchange', () => {
    // The first worker takes a fresh page as it is.
    if (!hadOne) return;
    if (isAskedHere) location.reload();
    else tell({ isTakenElsewhere: true, take: () => location.reload() });
  });
  // The files of older builds can go once no window shows them.
  serviceWorker.controller?.postMessage('tidy');
  serviceWorker
    .register('./service-worker.js')
    .then((registration) => {
      const watch = (): void => {
        const { waiting } = registration;
        if (waiting !== null && serviceWorker.controller !== null) {
          tell({
            isTakenElsewhere: false,
            take: () => {
              isAskedHere = true;
              waiting.postMessage('take over');
            },
          });
        }
        registration.installing?.addEventListener('statechange', watch);
      };
      watch();
      registration.addEventListener('updatefound', watch);
    })
    // Without it the app works as long as its server does; private windows refuse.
    .catch((error: unknown) => console.warn('not kept for work without network:', error));
}

/** The newer build there is; null where this is the newest. */
export const useNewerBuild = (): NewerBuild | null =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => newer,
  );
