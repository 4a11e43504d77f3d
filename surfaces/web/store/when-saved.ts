import type { DraftPlace, Drafts } from './drafts.ts';
import type { Store } from './store.ts';

/** Acts once the device has every change that was made until now. */
function whenSaved(store: Store, act: () => void): void {
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

/** Forgets a draft once the device has the readings that were written from it; not where more was typed since then. */
export function forgetWhenSaved(store: Store, drafts: Drafts, place: DraftPlace): void {
  const values = (): string | undefined => JSON.stringify(drafts.read(place)?.values);
  const written = values();
  whenSaved(store, () => {
    if (values() === written) drafts.forget(place);
  });
}
