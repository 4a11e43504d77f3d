/**
 * What is kept on this device (IndexedDB): the list of campaigns, every change of each as it was made, and its files.
 * A change counts as saved only when its transaction is complete, asked for with strict durability.
 */
import type { Problem } from '@stillstand/campaign/problems';

/** One campaign of the list. */
export interface CampaignRecord {
  id: string;
  name: string;
  /** Holds what this program cannot know, and is not written. */
  read_only: boolean;
  /** What was wrong with the file it was opened from. */
  problems: Problem[];
  /** Milliseconds since 1970, for the order of the list only. */
  opened_ms: number;
  /** When it was last packed for keeping elsewhere; null before the first time. */
  exported_ms: number | null;
  /** Changes since then. */
  changes_since_export: number;
  /** The id in its package, by which copies of one campaign are known; left out by older builds. */
  package_id?: string | null;
  /** The merge that can be taken back, as "merge a copy of Tessarn Spit". */
  merged?: string;
  /** How often it was put back to what it was before a merge. */
  put_back?: number;
}

export interface UpdateRecord {
  n?: number;
  campaign: string;
  update: Uint8Array;
}

/** What an open campaign asks of the device. */
export interface Device {
  changeRecord(id: string, change: Partial<Omit<CampaignRecord, 'id'>>): Promise<void>;
  readUpdates(
    id: string,
    after: number,
  ): Promise<{ record: CampaignRecord; updates: Uint8Array[]; last: number } | null>;
  keepUpdate(id: string, update: Uint8Array, of: Known): Promise<number>;
  mergeUpdates(id: string, merge: (updates: Uint8Array[]) => Uint8Array): Promise<void>;
  addFile(file: FileRecord): Promise<void>;
  readFile(id: string, path: string): Promise<Blob | null>;
  filePaths(id: string): Promise<string[]>;
  fileSizes(id: string): Promise<Map<string, number>>;
}

/** What a window knows of a campaign when it writes. */
interface Known {
  /** `put_back` of the record, as far as the window has heard. */
  putBack: number;
  /** All that the window has, where the campaign was put back under it; it has heard then. */
  whole(putBack: number): Uint8Array;
}

export interface FileRecord {
  campaign: string;
  path: string;
  blob: Blob;
}

const NAME = 'stillstand';
const VERSION = 2;
type StoreName = 'campaigns' | 'updates' | 'files' | 'before';

let opening: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = ({ oldVersion }) => {
      const db = request.result;
      if (oldVersion < 1) {
        db.createObjectStore('campaigns', { keyPath: 'id' });
        db.createObjectStore('updates', { keyPath: 'n', autoIncrement: true }).createIndex('campaign', [
          'campaign',
          'n',
        ]);
        db.createObjectStore('files', { keyPath: ['campaign', 'path'] });
      }
      if (oldVersion < 2) db.createObjectStore('before', { keyPath: 'campaign' });
    };
    request.onsuccess = () => {
      // A newer build in another tab must be able to change the shape of the database.
      request.result.onversionchange = () => request.result.close();
      request.result.onclose = () => {
        opening = null;
      };
      resolve(request.result);
    };
    request.onerror = () => {
      opening = null;
      reject(request.error ?? new Error('the database of this device does not open'));
    };
  });
  return opening;
}

/** Runs `work` in one transaction; resolves with what it gave once the device has everything. */
export async function transaction<T>(
  stores: StoreName[],
  mode: IDBTransactionMode,
  work: (t: IDBTransaction) => T | Promise<T>,
): Promise<T> {
  const db = await database();
  return new Promise<T>((resolve, reject) => {
    const t = db.transaction(stores, mode, { durability: 'strict' });
    let result: T;
    t.oncomplete = () => resolve(result);
    t.onabort = () => reject(t.error ?? new Error('the device did not keep the change'));
    // What throws at once ends the transaction like what fails later: nothing of it is kept.
    new Promise<T>((done) => done(work(t))).then(
      (value) => {
        result = value;
      },
      (error: unknown) => {
        reject(error);
        try {
          t.abort();
        } catch {
          // Already over.
        }
      },
    );
  });
}

export const asked = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

export const changesAfter = (id: string, n: number): IDBKeyRange =>
  IDBKeyRange.bound([id, n], [id, Number.POSITIVE_INFINITY], true);

const filesOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, ''], [id, '\uffff']);

export const listCampaigns = (): Promise<CampaignRecord[]> =>
  transaction(['campaigns'], 'readonly', (t) => asked<CampaignRecord[]>(t.objectStore('campaigns').getAll()));

/** A new campaign with its first content and its files: all of it or nothing. */
export const addCampaign = (
  record: CampaignRecord,
  update: Uint8Array,
  files: ReadonlyMap<string, Blob>,
): Promise<void> =>
  transaction(['campaigns', 'updates', 'files'], 'readwrite', (t) => {
    t.objectStore('campaigns').add(record);
    t.objectStore('updates').add({ campaign: record.id, update } satisfies UpdateRecord);
    for (const [path, blob] of files) {
      t.objectStore('files').add({ campaign: record.id, path, blob } satisfies FileRecord);
    }
  });

const changeRecord = (id: string, change: Partial<Omit<CampaignRecord, 'id'>>): Promise<void> =>
  transaction(['campaigns'], 'readwrite', async (t) => {
    const campaigns = t.objectStore('campaigns');
    const record = await asked<CampaignRecord | undefined>(campaigns.get(id));
    if (record !== undefined) campaigns.put({ ...record, ...change });
  });

export const removeCampaign = (id: string): Promise<void> =>
  transaction(['campaigns', 'updates', 'files', 'before'], 'readwrite', async (t) => {
    t.objectStore('campaigns').delete(id);
    t.objectStore('files').delete(filesOf(id));
    t.objectStore('before').delete(id);
    const updates = t.objectStore('updates');
    const keys = await asked(updates.index('campaign').getAllKeys(changesAfter(id, 0)));
    for (const key of keys) updates.delete(key);
  });

/** The changes of a campaign after the `n`th, in order, and the number of the last. Null for a campaign that is gone. */
const readUpdates = (
  id: string,
  after: number,
): Promise<{ record: CampaignRecord; updates: Uint8Array[]; last: number } | null> =>
  transaction(['campaigns', 'updates'], 'readonly', async (t) => {
    const record = await asked<CampaignRecord | undefined>(t.objectStore('campaigns').get(id));
    if (record === undefined) return null;
    const index = t.objectStore('updates').index('campaign');
    const found = await asked<UpdateRecord[]>(index.getAll(changesAfter(id, after)));
    return { record, updates: found.map(({ update }) => update), last: found.at(-1)?.n ?? after };
  });

/** The record of a campaign that is written to. Throws for one that was taken away. */
export async function demandRecord(t: IDBTransaction, id: string): Promise<CampaignRecord> {
  const record = await asked<CampaignRecord | undefined>(t.objectStore('campaigns').get(id));
  if (record === undefined) throw new Error('this campaign was removed from the device in another window');
  return record;
}

/**
 * Keeps a change; resolves with its number when the device has it. Rejects for a campaign that was taken away. A window
 * under which the campaign was put back writes all it has: its change alone would be one of rows that are gone.
 */
const keepUpdate = (id: string, update: Uint8Array, { putBack, whole }: Known): Promise<number> =>
  transaction(['campaigns', 'updates'], 'readwrite', async (t) => {
    const record = await demandRecord(t, id);
    const isBack = (record.put_back ?? 0) !== putBack;
    const kept = isBack ? whole(record.put_back ?? 0) : update;
    t.objectStore('campaigns').put({ ...record, changes_since_export: record.changes_since_export + 1 });
    return Number(
      await asked(t.objectStore('updates').add({ campaign: id, update: kept } satisfies UpdateRecord)),
    );
  });

/** Replaces the changes of a campaign by one that says the same, in one step. */
const mergeUpdates = (id: string, merge: (updates: Uint8Array[]) => Uint8Array): Promise<void> =>
  transaction(['updates'], 'readwrite', async (t) => {
    const updates = t.objectStore('updates');
    const found = await asked<UpdateRecord[]>(updates.index('campaign').getAll(changesAfter(id, 0)));
    if (found.length < 2) return;
    updates.add({ campaign: id, update: merge(found.map(({ update }) => update)) } satisfies UpdateRecord);
    for (const { n } of found) updates.delete(n!);
  });

const addFile = (file: FileRecord): Promise<void> =>
  transaction(['files'], 'readwrite', (t) => {
    t.objectStore('files').put(file);
  });

const readFile = (id: string, path: string): Promise<Blob | null> =>
  transaction(['files'], 'readonly', async (t) => {
    const found = await asked<FileRecord | undefined>(t.objectStore('files').get([id, path]));
    return found?.blob ?? null;
  });

const filePaths = (id: string): Promise<string[]> =>
  transaction(['files'], 'readonly', async (t) => {
    const keys = await asked(t.objectStore('files').getAllKeys(filesOf(id)));
    return keys.map((key) => (key as [string, string])[1]);
  });

const fileSizes = (id: string): Promise<Map<string, number>> =>
  transaction(['files'], 'readonly', async (t) => {
    const found = await asked<FileRecord[]>(t.objectStore('files').getAll(filesOf(id)));
    return new Map(found.map(({ path, blob }) => [path, blob.size]));
  });

/** This device, but for its merges. */
export const thisDevice: Device = {
  changeRecord,
  readUpdates,
  keepUpdate,
  mergeUpdates,
  addFile,
  readFile,
  filePaths,
  fileSizes,
};
