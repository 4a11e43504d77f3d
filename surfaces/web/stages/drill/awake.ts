/** Keeps the screen awake while Drill is shown; a lock the system takes away on hiding is asked for again. */
import { useEffect, useState } from 'react';

export function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let gone = false;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      if (lock !== null && !lock.released) return;
      try {
        const got = await navigator.wakeLock.request('screen');
        if (gone) await got.release();
        else lock = got;
      } catch {
        // low battery or not allowed: the system decides
      }
    };
    const again = () => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    return () => {
      gone = true;
      document.removeEventListener('visibilitychange', again);
      void lock?.release();
    };
  }, []);
}

/** Now, to the minute: drawn again when the minute changes. */
export function useMinute(clock: () => Date): Date {
  const [now, setNow] = useState(clock);
  useEffect(() => {
    const timer = setInterval(() => setNow(clock()), 5_000);
    return () => clearInterval(timer);
  }, [clock]);
  return now;
}

const two = (n: number): string => String(n).padStart(2, '0');

/** "14:43", by the clock of the device. */
export const hourMinute = (at: Date): string => `${two(at.getHours())}:${two(at.getMinutes())}`;
/** "2024-06-11", by the clock of the device. */
export const dayOf = (at: Date): string =>
  `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
