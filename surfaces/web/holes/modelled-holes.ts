/** Holes whose ages against depth are modelled, as the settings name them. */
import { listed } from '@stillstand/campaign/tables';
import { useStore } from '../store/index.ts';

export function useModelledHoles() {
  const store = useStore();
  return {
    asked: listed(store.setting('age_depth')),
    set: (holes: readonly string[]): void => store.setSetting('age_depth', holes.join('; ')),
    isReadOnly: store.readOnly,
  };
}
