/** Keeps the app on the device for work without network, and tells when a newer build has arrived. */
import { useSyncExternalStore } from 'react';

let waiting: ServiceWorker | null = null;
const listeners = new Set<() => void>();

const tell = (worker: ServiceWorker | null): void => {
  waiting = worker;
  for (const listener of listeners) listener();
};

export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const hadOne = navigator.serviceWorker.controller !== null;
  let isReloading = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    // The first worker takes a fresh page as it is; a newer one needs its own files.
    if (hadOne && !isReloading) {
      isReloading = true;
      location.reload();
    }
  });
  navigator.serviceWorker
    .register('./service-worker.js')
    .then((registration) => {
      const watch = (): void => {
        if (registration.waiting !== null && navigator.serviceWorker.controller !== null)
          tell(registration.waiting);
        registration.installing?.addEventListener('statechange', watch);
      };
      watch();
      registration.addEventListener('updatefound', watch);
    })
    // Without it the app works as long as its server does; private windows refuse.
    .catch((error: unknown) => console.warn('not kept for work without network:', error));
}

/** The newer build that waits, as an action that takes it; null where there is none. */
export function useNewerBuild(): (() => void) | null {
  const worker = useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => waiting,
  );
  return worker === null ? null : () => worker.postMessage('take over');
}
