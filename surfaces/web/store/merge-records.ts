/**
 * Merges on this device: each is kept with what the campaign was before it, in one transaction, and is taken back in one.
 * A Yjs update cannot be taken out again, so what is put back is the state before it.
 */
import * as Y from 'yjs';
import {
  asked,
  type CampaignRecord,
  changesAfter,
  demandRecord,
  type FileRecord,
  transaction,
  type UpdateRecord,
} from './database.ts';

/** A copy that is merged in: what it changes, and its files that are not here. */
export interface Merged {
  update: Uint8Array;
  files: ReadonlyMap<string, Blob>;
  /** As undo names it: "merge a copy of Tessarn Spit". */
  words: string;
}

/** What a campaign was before a merge, and what the merge was, each as one change. */
interface BeforeRecord {
  campaign: string;
  before: Uint8Array;
  merged: Uint8Array;
}

/** What an open campaign asks of the device about merges. */
export interface MergeRecords {
  keepMerge(id: string, merged: Merged): Promise<void>;
  /** Null where there is none to take back. */
  readMerge(id: string): Promise<Pick<BeforeRecord, 'before' | 'merged'> | null>;
  forgetMerge(id: string): Promise<void>;
  putBack(id: string, last: number): Promise<boolean>;
}

/** Keeps a merge with its files, and what the campaign was before it: all of it or nothing. */
const keepMerge = (id: string, { update, files, words }: Merged): Promise<void> =>
  transaction(['campaigns', 'updates', 'files', 'before'], 'readwrite', async (t) => {
    const record = await demandRecord(t, id);
    const updates = t.objectStore('updates');
    const found = await asked<UpdateRecord[]>(updates.index('campaign').getAll(changesAfter(id, 0)));
    const before = Y.mergeUpdates(found.map((each) => each.update));
    t.objectStore('before').put({ campaign: id, before, merged: update } satisfies BeforeRecord);
    updates.add({ campaign: id, update } satisfies UpdateRecord);
    for (const [path, blob] of files) {
      t.objectStore('files').put({ campaign: id, path, blob } satisfies FileRecord);
    }
    t.objectStore('campaigns').put({
      ...record,
      merged: words,
      changes_since_export: record.changes_since_export + 1,
    } satisfies CampaignRecord);
  });

const readMerge = (id: string): Promise<BeforeRecord | null> =>
  transaction(
    ['before'],
    'readonly',
    async (t) => (await asked<BeforeRecord | undefined>(t.objectStore('before').get(id))) ?? null,
  );

/** The merge cannot be taken back any more. */
const forgetMerge = (id: string): Promise<void> =>
  transaction(['campaigns', 'before'], 'readwrite', async (t) => {
    const { merged: _, ...record } = await demandRecord(t, id);
    t.objectStore('campaigns').put(record);
    t.objectStore('before').delete(id);
  });

/**
 * Puts a campaign back to what it was before its merge, in one step; the files that came stay. False, and nothing is
 * done, where there is none, or a change after the `last`th that the one who asks has not seen.
 */
const putBack = (id: string, last: number): Promise<boolean> =>
  transaction(['campaigns', 'updates', 'before'], 'readwrite', async (t) => {
    const { merged: _, ...record } = await demandRecord(t, id);
    const updates = t.objectStore('updates');
    const keys = await asked(updates.index('campaign').getAllKeys(changesAfter(id, 0)));
    const kept = await asked<BeforeRecord | undefined>(t.objectStore('before').get(id));
    if (kept === undefined || keys.some((n) => Number(n) > last)) return false;
    for (const key of keys) updates.delete(key);
    updates.add({ campaign: id, update: kept.before } satisfies UpdateRecord);
    t.objectStore('before').delete(id);
    t.objectStore('campaigns').put({
      ...record,
      put_back: (record.put_back ?? 0) + 1,
      changes_since_export: record.changes_since_export + 1,
    } satisfies CampaignRecord);
    return true;
  });

export const mergeRecords: MergeRecords = { keepMerge, readMerge, forgetMerge, putBack };
