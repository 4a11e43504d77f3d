/** Daily copies on the screens of an open campaign. */
import { createContext, useContext, useSyncExternalStore } from 'react';
import { fileName } from '../parts/index.ts';
import type { Store } from '../store/index.ts';
import { type Daily, type DailyState, dailyCopies } from './daily.ts';
import { deviceMemory } from './memory.ts';

export const DailyContext = createContext<Daily | null>(null);

/** The daily copies of a campaign that was opened; the page says when it is hidden. Returns how to end as well. */
export function dailyCopiesOf(store: Store): { daily: Daily; leave: () => Promise<void> } {
  const daily = dailyCopies(store, { memory: deviceMemory, now: () => new Date(), fileName, alone });
  const whenHidden = (): void => {
    if (document.visibilityState === 'hidden') void daily.hidden();
  };
  document.addEventListener('visibilitychange', whenHidden);
  return {
    daily,
    leave: () => {
      document.removeEventListener('visibilitychange', whenHidden);
      return daily.leave();
    },
  };
}

/** Throws where no campaign is open. */
export function useDaily(): { daily: Daily; state: DailyState } {
  const daily = useContext(DailyContext);
  if (daily === null) throw new RangeError('useDaily outside an open campaign');
  return { daily, state: useSyncExternalStore(daily.subscribe, daily.state) };
}

const alone = <T>(name: string, work: () => Promise<T>): Promise<T> =>
  navigator.locks === undefined ? work() : navigator.locks.request(name, work);
