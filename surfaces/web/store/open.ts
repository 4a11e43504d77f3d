/**
 * An open campaign: its Yjs document in memory, every change written to the device as it is made, and told to the other
 * tabs. The channel between tabs only says that there is something to read; what is true stands in the database. Long because document, waiting changes
 * and other tabs are one state.
 */
import { type DocRow, editing, isKnownLayout, migrated, reader } from '@stillstand/campaign/replica';
import { migrate } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { writer } from './crew.ts';
import { type CampaignRecord, type Device, thisDevice } from './database.ts';
import { campaignName } from './name.ts';
import { packed } from './pack.ts';
import type { Store } from './store.ts';
import { setUnwritten, unwritten } from './unwritten.ts';
import { writing } from './writing.ts';

/** Origin of changes that need not be written: the device has them. */
const ELSEWHERE = Symbol('another tab, or the device');

/** So many changes are kept one by one before they are written as one. */
const MERGE_BEYOND = 300;

/** What an open campaign needs of the page around it; another in tests. */
export interface Surroundings {
  device: Device;
  channel: Pick<BroadcastChannel, 'postMessage' | 'close'> & {
    addEventListener(type: 'message', listener: () => void): void;
  };
  /** Calls back whenever the page is looked at, and asks before it goes whether it may. Returns how to stop. */
  watchPage(seen: () => void, mustStay: () => boolean): () => void;
}

/**
 * Opens a campaign of this device; null where there is none of that id. Rejects where a newer Stillstand keeps it in a
 * way this one does not know, and where the device does not answer.
 */
export const openStore = (id: string): Promise<Store | null> =>
  openIn(id, () => ({
    device: thisDevice,
    channel: new BroadcastChannel(`stillstand/${id}`),
    watchPage,
  }));

export async function openIn(id: string, surroundings: () => Surroundings): Promise<Store | null> {
  const waiting = unwritten(id);
  if (waiting !== undefined) {
    waiting.reopen();
    return waiting;
  }
  const around = surroundings();
  const { device, channel } = around;
  try {
    // Listening starts before reading, so that no change falls between. Two tabs must not migrate one campaign twice.
    const kept = await alone(`stillstand/${id}`, () => readLifted(id, around));
    if (kept === null) {
      channel.close();
      return null;
    }
    // Neither is worth a campaign that does not open: a full device refuses both.
    if (kept.count > MERGE_BEYOND) device.mergeUpdates(id, Y.mergeUpdates).catch(() => undefined);
    await device.changeRecord(id, { opened_ms: Date.now() }).catch(() => undefined);
    return openedStore(kept.doc, kept.record, kept.last, around);
  } catch (error) {
    channel.close();
    throw error;
  }
}

/** What the device keeps of a campaign, migrated to the version this Stillstand writes; the migrated is kept before it is used. */
async function readLifted(id: string, { device, channel }: Surroundings) {
  const kept = await device.readUpdates(id, 0);
  if (kept === null) return null;
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const update of kept.updates) Y.applyUpdate(doc, update);
  }, ELSEWHERE);
  if (!isKnownLayout(doc)) throw new Error('a newer Stillstand keeps this campaign: update the app');
  const { record, updates, last } = kept;
  const whole = { doc, record, last, count: updates.length };
  if (record.read_only) return whole;
  const { update, read_only, problems } = migrated(doc);
  if (update !== null) {
    whole.last = await device.keepUpdate(id, update);
    channel.postMessage('changed');
  }
  if (read_only) whole.record = { ...record, read_only, problems: [...record.problems, ...problems] };
  return whole;
}

/** Runs `work` while no other tab does work of that name. */
const alone = <T>(name: string, work: () => Promise<T>): Promise<T> =>
  // Only a page that is served safely has locks; without them two tabs are not opened in the same second.
  globalThis.navigator?.locks === undefined ? work() : navigator.locks.request(name, work);

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

function openedStore(
  doc: Y.Doc,
  record: CampaignRecord,
  lastRead: number,
  { device, channel, watchPage }: Surroundings,
): Store {
  const { id } = record;
  const listeners = new Set<() => void>();
  let version = 0;
  const tell = (): void => {
    version += 1;
    for (const listener of [...listeners]) listener();
  };

  const { read, document, forget } = reader(doc, tell);

  let isReadOnly = record.read_only;
  let isClosed = false;
  const edits = editing({
    doc,
    read,
    forget,
    demandWritable: () => {
      if (isReadOnly) throw new RangeError(`campaign ${id} is read only`);
      if (isClosed) throw new RangeError(`campaign ${id} is closed`);
    },
    tell,
    writer,
  });

  // Writing.
  let changesSinceExport = record.changes_since_export;
  let exported_ms = record.exported_ms;
  const waits = writing(async (update) => {
    await device.keepUpdate(id, update);
    channel.postMessage('changed');
  }, whenWritten);
  function whenWritten(): void {
    if (isClosed && waits.state === 'saved') end();
    else tell();
  }
  doc.on('update', (update: Uint8Array, origin: unknown) => {
    if (origin === ELSEWHERE) return;
    changesSinceExport += 1;
    waits.push(update, edits.touched());
  });

  // Other tabs.
  let isCatching = false;
  let isBehind = false;
  const catchUp = async (): Promise<void> => {
    do {
      isBehind = false;
      const found = await device.readUpdates(id, lastRead);
      if (found === null || isEnded) return;
      lastRead = found.last;
      changesSinceExport = found.record.changes_since_export;
      exported_ms = found.record.exported_ms;
      doc.transact(() => {
        for (const update of found.updates) Y.applyUpdate(doc, update, ELSEWHERE);
      }, ELSEWHERE);
      // A newer Stillstand in another tab may have migrated it under this one.
      if (!isReadOnly && migrate(document()).read_only) {
        isReadOnly = true;
        tell();
      }
      if (!isReadOnly) edits.repaired(null);
    } while (isBehind);
  };
  const beCaughtUp = (): void => {
    isBehind = true;
    if (isCatching) return;
    isCatching = true;
    catchUp()
      // The database is asked again with the next change, and whenever this tab is looked at.
      .catch(() => undefined)
      .finally(() => {
        isCatching = false;
      });
  };
  channel.addEventListener('message', beCaughtUp);
  const unwatch = watchPage(beCaughtUp, () => waits.state !== 'saved');
  let isEnded = false;
  function end(): void {
    if (isEnded) return;
    isEnded = true;
    setUnwritten(id, null);
    channel.close();
    unwatch();
    doc.destroy();
  }

  const { rows } = edits;
  const settingRow = (name: string): DocRow | undefined =>
    rows('settings').find((row) => row.cells['name']?.trim() === name);

  const store: Store & { reopen(): void } = {
    id,
    get readOnly() {
      return isReadOnly;
    },
    openingProblems: record.problems,
    document,
    rows,
    name: () => campaignName(document()),
    version: () => version,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    addReading: edits.addReading,
    amend: edits.amend,
    withdraw: edits.withdraw,
    restore: edits.restore,
    decide: edits.decide,
    addRow: edits.addRow,
    editRow: edits.editRow,
    removeRow: edits.removeRow,
    whyKept: edits.whyKept,
    together: edits.together,
    undo: edits.undo,
    redo: edits.redo,
    undoes: edits.undoes,
    redoes: edits.redoes,
    news: edits.news,
    forgetNews: edits.forgetNews,
    setting: (name) => settingRow(name)?.cells['value'] ?? null,
    setSetting: (name, value) => {
      const row = settingRow(name);
      if (row === undefined) {
        if (value !== '') edits.addRow('settings', { name, value });
      } else if (value === '') edits.removeRow('settings', row.row_id);
      else edits.editRow('settings', row.row_id, { value });
    },
    addFile: async (bytes, type) => {
      if (isReadOnly) throw new RangeError(`campaign ${id} is read only`);
      const folder = type.startsWith('image/') ? 'photos' : 'files';
      const path = `${folder}/${await contentHash(bytes)}.${ending(type)}`;
      await device.addFile({
        campaign: id,
        path,
        blob: new Blob([bytes as Uint8Array<ArrayBuffer>], { type }),
      });
      return path;
    },
    file: (path) => device.readFile(id, path),
    filePaths: () => device.filePaths(id),
    get saved() {
      return waits.state;
    },
    get failure() {
      return waits.failure;
    },
    get unsaved() {
      return waits.unsaved;
    },
    exportZip: async () => {
      const zip = await packed(document(), await device.filePaths(id), (path) => device.readFile(id, path));
      exported_ms = Date.now();
      changesSinceExport = 0;
      // The zip is there, whether or not a full device can note it.
      await device.changeRecord(id, { exported_ms, changes_since_export: 0 }).catch(() => undefined);
      tell();
      return zip;
    },
    keptElsewhere: () => ({ changes: changesSinceExport, exported_ms }),
    close: async () => {
      await waits.now();
      await device.changeRecord(id, { name: campaignName(document()) }).catch(() => undefined);
      isClosed = true;
      listeners.clear();
      if (waits.state === 'saved') end();
      else setUnwritten(id, store);
    },
    reopen: () => {
      isClosed = false;
      setUnwritten(id, null);
    },
  };
  // What two windows did by halves, and neither saw.
  if (!isReadOnly) edits.repaired(null);
  return store;
}

async function contentHash(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** "image/jpeg" ends in jpg. */
function ending(type: string): string {
  const kind = type.slice(type.indexOf('/') + 1).replace(/[^a-z0-9]/g, '');
  return kind === 'jpeg' ? 'jpg' : kind === '' ? 'bin' : kind;
}
