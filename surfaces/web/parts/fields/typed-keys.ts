import type { KeyboardEvent } from 'react';

/** Keys of a field that keeps what is typed until it is done: Enter is done with it, Escape gives back what was there. */
export const typedKeys =
  (isChanged: boolean, commit: () => void, giveBack: () => void) =>
  (event: KeyboardEvent): void => {
    if (event.key === 'Enter') commit();
    if (event.key === 'Escape' && isChanged) {
      // The dialog around it stays open.
      event.stopPropagation();
      giveBack();
    }
  };
