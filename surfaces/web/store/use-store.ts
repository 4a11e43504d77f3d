import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Store } from './store.ts';

export const StoreContext = createContext<Store | null>(null);

/** The open campaign; the component is drawn again whenever it changes. Throws where no campaign is open. */
export function useStore(): Store {
  const store = useContext(StoreContext);
  if (store === null) throw new RangeError('useStore outside an open campaign');
  useSyncExternalStore(store.subscribe, store.version);
  return store;
}
