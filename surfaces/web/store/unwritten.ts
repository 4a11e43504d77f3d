/**
 * Campaigns that were left while the device refused their changes: they are kept in this page's memory until it takes
 * them, and are opened from there.
 */
import { useSyncExternalStore } from 'react';
import type { Store } from './store.ts';

interface Unwritten extends Store {
  /** Goes on as if it had not been closed. */
  reopen(): void;
}

let stores: ReadonlyMap<string, Unwritten> = new Map();
const listeners = new Set<() => void>();

export const unwritten = (id: string): Unwritten | undefined => stores.get(id);

export function setUnwritten(id: string, store: Unwritten | null): void {
  const next = new Map(stores);
  if (store === null) next.delete(id);
  else next.set(id, store);
  stores = next;
  for (const listener of listeners) listener();
}

/** Identities of campaigns with changes that are on no screen and not on the device. */
export const useUnwritten = (): { has(id: string): boolean } =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => stores,
  );
