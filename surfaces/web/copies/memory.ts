/**
 * What this device remembers of daily copies: the folder for all its campaigns, and what was written of each. A database
 * of its own, so that the campaigns' keeps its shape.
 */
import type { WrittenCopy } from './copy-name.ts';
import type { Folder } from './folder.ts';

export type Choice =
  | { kind: 'off' }
  | { kind: 'folder'; folder: Folder }
  /** The platform has no folders: a person is reminded once a day. */
  | { kind: 'remind' };

export interface CopyMemory {
  choice(): Promise<Choice>;
  choose(choice: Choice): Promise<void>;
  written(campaign: string): Promise<readonly WrittenCopy[]>;
  setWritten(campaign: string, written: readonly WrittenCopy[]): Promise<void>;
}

const NAME = 'stillstand-copies';

function database(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('choice');
      request.result.createObjectStore('written');
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the database of this device does not open'));
  });
}

/** Opened for each act and closed again: there are a few a day. */
async function act<T>(
  store: 'choice' | 'written',
  mode: IDBTransactionMode,
  work: (s: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const db = await database();
  try {
    return await new Promise<T>((resolve, reject) => {
      const t = db.transaction(store, mode);
      const request = work(t.objectStore(store));
      t.oncomplete = () => resolve(request.result);
      t.onabort = () => reject(t.error ?? new Error('the device did not keep it'));
    });
  } finally {
    db.close();
  }
}

export const deviceMemory: CopyMemory = {
  choice: async () =>
    (await act<Choice | undefined>('choice', 'readonly', (s) => s.get('choice'))) ?? { kind: 'off' },
  choose: async (choice) => {
    await act('choice', 'readwrite', (s) => s.put(choice, 'choice'));
  },
  written: async (campaign) =>
    (await act<WrittenCopy[] | undefined>('written', 'readonly', (s) => s.get(campaign))) ?? [],
  setWritten: async (campaign, written) => {
    await act('written', 'readwrite', (s) => s.put([...written], campaign));
  },
};
