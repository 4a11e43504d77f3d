/** Numbers on the page that somebody else's change made others than they were; the shell knows which. */
import type { TraceId } from '@stillstand/campaign/results';
import { createContext } from 'react';

/** A number as it is drawn; the same object as long as it is on the page. */
export interface ShownNumber {
  id: TraceId;
  element: HTMLElement | null;
}

/** "4.12 m", and until when, whom and what it was so: "driller, tablet B, 15:40: edit run R13 (cable mark)". */
export interface Changed {
  readonly was: string;
  readonly until: string;
}

export interface ChangedNumbers {
  /** A number is on the page; returns how to say that it is gone. */
  watch(shown: ShownNumber): () => void;
  /** Null where it is as it was. */
  of(shown: ShownNumber): Changed | null;
  /** It is looked at: its mark goes. */
  look(shown: ShownNumber): void;
  /** What is to be said of the number that was last looked at. */
  looked(id: TraceId): Changed | null;
  subscribe(listener: () => void): () => void;
}

export const ChangedContext = createContext<ChangedNumbers | null>(null);
