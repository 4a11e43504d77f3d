import type { Store } from './store.ts';

/** Acts once the device has every change that was made until now. */
export function whenSaved(store: Store, act: () => void): void {
  if (store.saved === 'saved') {
    act();
    return;
  }
  const stop = store.subscribe(() => {
    if (store.saved !== 'saved') return;
    stop();
    act();
  });
}
