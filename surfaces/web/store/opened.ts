/**
 * An open campaign: its Yjs document in memory, every change written to the device as it is made, and told to the other
 * tabs. The channel between tabs only says that there is something to read; what is true stands in the database. The
 * document, the waiting changes and the other tabs are one state.
 */
import { documentAfter, trimActs, withHistory } from '@stillstand/campaign/history';
import { actsOf, cellsIn, type DocRow, editing, reader } from '@stillstand/campaign/replica';
import { migrate } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { writer } from './crew.ts';
import type { CampaignRecord } from './database.ts';
import { filePath } from './file-path.ts';
import { merging } from './merging.ts';
import { campaignName } from './name.ts';
import { packed } from './pack.ts';
import type { Store } from './store.ts';
import type { Surroundings } from './surroundings.ts';
import { setUnwritten } from './unwritten.ts';
import { writing } from './writing.ts';

/** Origin of changes that need not be written: the device has them. */
export const ELSEWHERE = Symbol('another tab, or the device');

/** `lastRead`: the last change of the device that the document has. */
export function openedStore(
  doc: Y.Doc,
  record: CampaignRecord,
  lastRead: number,
  { device, channel, watchPage }: Surroundings,
  earlier: Store['earlier'] = null,
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
  const acts = actsOf(doc);
  const edits = editing({
    doc,
    acts,
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
  let putBack = record.put_back ?? 0;
  const waits = writing(async (update) => {
    await device.keepUpdate(id, update, {
      putBack,
      whole: (now) => {
        putBack = now;
        return Y.encodeStateAsUpdate(doc);
      },
    });
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
      // What waits here is written with all that this window has; then it is one of the campaign as it is now.
      if ((found.record.put_back ?? 0) !== putBack && waits.state !== 'saved') return;
      if ((found.record.put_back ?? 0) !== putBack) {
        isBack('The merge was undone in another window.');
        return;
      }
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

  // Merges.
  let isOver: string | null = null;
  function isBack(words: string): void {
    if (isOver !== null) return;
    isOver = words;
    tell();
  }
  const merges = merging({
    id,
    doc,
    words: record.merged ?? null,
    edits,
    waits,
    device,
    caughtUp: async () => {
      await catchUp();
      return lastRead;
    },
    apply: (update) => {
      changesSinceExport += 1;
      channel.postMessage('changed');
      if (isEnded) return;
      Y.applyUpdate(doc, update, ELSEWHERE);
      edits.repaired(null);
    },
    isBack: (words) => {
      channel.postMessage('changed');
      isBack(words);
    },
  });

  const { rows } = edits;
  const settingRow = (name: string): DocRow | undefined =>
    rows('settings').find((row) => row.cells['name']?.trim() === name);

  const store: Store & { reopen(): void } = {
    id,
    get readOnly() {
      return isReadOnly;
    },
    earlier,
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
    move: edits.move,
    decide: edits.decide,
    settle: edits.settle,
    acts: acts.all,
    arrived: acts.arrived,
    cellsOf: cellsIn(read),
    documentAfter: (act) => documentAfter(doc, act),
    conflicts: acts.conflicts,
    addRow: edits.addRow,
    editRow: edits.editRow,
    removeRow: edits.removeRow,
    whyKept: edits.whyKept,
    together: edits.together,
    undo: () => {
      const merge = merges.undoes();
      if (merge === null) edits.undo();
      else merges.undo(merge);
    },
    redo: edits.redo,
    undoes: () => merges.undoes() ?? edits.undoes(),
    redoes: edits.redoes,
    news: edits.news,
    forgetNews: edits.forgetNews,
    say: edits.say,
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
      const path = await filePath(bytes, type);
      await device.addFile({
        campaign: id,
        path,
        blob: new Blob([bytes as Uint8Array<ArrayBuffer>], { type }),
      });
      return path;
    },
    merge: async (merged) => {
      if (isReadOnly) throw new RangeError(`campaign ${id} is read only`);
      await merges.merge(merged);
    },
    get isOver() {
      return isOver;
    },
    file: (path) => device.readFile(id, path),
    filePaths: () => device.filePaths(id),
    fileSizes: () => device.fileSizes(id),
    state: () => Y.encodeStateAsUpdate(doc),
    get saved() {
      return waits.state;
    },
    get failure() {
      return waits.failure;
    },
    get unsaved() {
      return waits.unsaved;
    },
    asSaved: () => {
      if (isReadOnly) return document();
      trimActs(doc);
      return withHistory(document(), doc);
    },
    photoSizes: async () => {
      const named = new Set(rows('photos').map(({ cells }) => cells['file']?.trim() ?? ''));
      const sizes = await device.fileSizes(id);
      return new Map([...sizes].filter(([path]) => named.has(path) || path.startsWith('photos/')));
    },
    pack: async (leave) => {
      const saved = store.asSaved();
      const changes = changesSinceExport;
      const zip = await packed(saved, await device.filePaths(id), (path) => device.readFile(id, path), leave);
      return {
        zip,
        wasKept: async () => {
          exported_ms = Date.now();
          // What was changed while it was packed is not in it.
          changesSinceExport = Math.max(0, changesSinceExport - changes);
          // The copy is there, whether or not a full device can note it.
          await device
            .changeRecord(id, { exported_ms, changes_since_export: changesSinceExport })
            .catch(() => undefined);
          tell();
        },
      };
    },
    exportZip: async () => {
      const { zip, wasKept } = await store.pack();
      await wasKept();
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
