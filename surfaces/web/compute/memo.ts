/** A memo that forgets what the last computations did not use, so that a day of edits does not fill the device. */
import type { Memo } from '@stillstand/campaign/steps';

export interface ForgettingMemo {
  memo: Memo;
  /** Call after each computation: results that none of the last `keep` have used are dropped. */
  turn(): void;
}

export function forgettingMemo(keep: number): ForgettingMemo {
  const lastUsed = new Map<string, number>();
  let now = 0;
  class UsedMap extends Map<string, unknown> {
    override has(key: string): boolean {
      const known = super.has(key);
      if (known) lastUsed.set(key, now);
      return known;
    }
    override set(key: string, value: unknown): this {
      lastUsed.set(key, now);
      return super.set(key, value);
    }
  }
  const memo = new UsedMap();
  return {
    memo,
    turn: () => {
      now += 1;
      for (const [key, used] of lastUsed) {
        if (now - used <= keep) continue;
        lastUsed.delete(key);
        memo.delete(key);
      }
    },
  };
}
