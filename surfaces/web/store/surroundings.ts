/** What an open campaign needs of what is around it: the device, the other tabs, the page. Another in tests. */
import { type Device, thisDevice } from './database.ts';
import { type MergeRecords, mergeRecords } from './merge-records.ts';

export interface Surroundings {
  device: Device & MergeRecords;
  channel: Pick<BroadcastChannel, 'postMessage' | 'close'> & {
    addEventListener(type: 'message', listener: () => void): void;
  };
  /** Calls back whenever the page is looked at, and asks before it goes whether it may. Returns how to stop. */
  watchPage(seen: () => void, mustStay: () => boolean): () => void;
}

export const surroundingsOf = (id: string): Surroundings => ({
  device: { ...thisDevice, ...mergeRecords },
  channel: new BroadcastChannel(`stillstand/${id}`),
  watchPage,
});

function watchPage(seen: () => void, mustStay: () => boolean): () => void {
  const whenSeen = (): void => {
    if (globalThis.document.visibilityState === 'visible') seen();
  };
  const holdPage = (event: BeforeUnloadEvent): void => {
    if (mustStay()) event.preventDefault();
  };
  globalThis.document.addEventListener('visibilitychange', whenSeen);
  globalThis.addEventListener('beforeunload', holdPage);
  return () => {
    globalThis.document.removeEventListener('visibilitychange', whenSeen);
    globalThis.removeEventListener('beforeunload', holdPage);
  };
}
