/**
 * Changes on their way to the device: each is shown at once and counts as saved only when the device has it. What the
 * device refuses stays here, stays on the screen, and is tried again until it is taken.
 */
import * as Y from 'yjs';
import { deviceWords } from './device-words.ts';

/** After a refusal. */
const TRY_AGAIN_MS = 2000;

export interface Writing {
  /** A change, and the rows it is of. */
  push(update: Uint8Array, row_ids: Iterable<string>): void;
  /** Tries everything that waits; resolves when the device has answered. */
  now(): Promise<void>;
  readonly state: 'saved' | 'saving' | 'failed';
  /** Why the device refused the last try; null where it did not. */
  readonly failure: string | null;
  /** Rows that are shown and not yet on the device. */
  readonly unsaved: ReadonlySet<string>;
}

interface Waiting {
  update: Uint8Array;
  row_ids: ReadonlySet<string>;
}

/** `keep` resolves when the device has the change; `tell` is called when the state or the rows that wait are others. */
export function writing(
  keep: (update: Uint8Array) => Promise<unknown>,
  tell: () => void,
  later: (work: () => void, ms: number) => unknown = setTimeout,
): Writing {
  let waiting: Waiting[] = [];
  let inHand: readonly Waiting[] = [];
  let running: Promise<void> | null = null;
  let failure: string | null = null;
  let unsaved: ReadonlySet<string> = new Set();
  const count = (): void => {
    unsaved = new Set([...inHand, ...waiting].flatMap(({ row_ids }) => [...row_ids]));
  };
  const write = async (): Promise<void> => {
    while (waiting.length > 0) {
      inHand = waiting;
      waiting = [];
      const updates = inHand.map(({ update }) => update);
      try {
        await keep(updates.length === 1 ? updates[0]! : Y.mergeUpdates(updates));
        inHand = [];
        failure = null;
      } catch (error) {
        waiting = [...inHand, ...waiting];
        inHand = [];
        failure = deviceWords(error);
        later(start, TRY_AGAIN_MS);
        return;
      } finally {
        count();
      }
    }
  };
  function start(): void {
    if (running !== null || waiting.length === 0) return;
    running = write().finally(() => {
      running = null;
      // What came between the last look and now; a refused change has its own time.
      if (failure === null) start();
      tell();
    });
  }
  return {
    push: (update, row_ids) => {
      waiting.push({ update, row_ids: new Set(row_ids) });
      count();
      start();
    },
    now: async () => {
      start();
      await running;
    },
    get state() {
      if (failure !== null) return 'failed';
      return waiting.length > 0 || running !== null ? 'saving' : 'saved';
    },
    get failure() {
      return failure;
    },
    get unsaved() {
      return unsaved;
    },
  };
}
