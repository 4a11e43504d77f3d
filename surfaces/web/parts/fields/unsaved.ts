/**
 * Forms that are half filled. The page is not loaded again under them, and a person who is about to leave is asked: what
 * is typed and not saved is nowhere but on the screen.
 */
import { useEffect, useId, useSyncExternalStore } from 'react';

const forms = new Set<string>();
const listeners = new Set<() => void>();

const tell = (): void => {
  for (const listener of listeners) listener();
};

const ask = (event: BeforeUnloadEvent): void => event.preventDefault();

/** Says whether the form that calls it holds something typed and not saved. */
export function useUnsaved(isUnsaved: boolean): void {
  const form = useId();
  useEffect(() => {
    if (!isUnsaved) return;
    if (forms.size === 0) addEventListener('beforeunload', ask);
    forms.add(form);
    tell();
    return () => {
      forms.delete(form);
      if (forms.size === 0) removeEventListener('beforeunload', ask);
      tell();
    };
  }, [form, isUnsaved]);
}

/** True while any form is half filled. */
export const useAnyUnsaved = (): boolean =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => forms.size > 0,
  );
