/**
 * An open campaign: its Yjs document in memory, every change written to the device as it is made, and told to the other
 * tabs. The channel between tabs only says that there is something to read; what is true stands in the database.
 */
import type { CampaignDocument } from '@stillstand/campaign/document';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { lift } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { amending } from './amending.ts';
import {
  append,
  type DocRow,
  edit,
  isKnownLayout,
  isReadings,
  parts,
  readDocument,
  readTable,
  remove,
  type TableMemory,
  type TableRead,
} from './content.ts';
import * as database from './database.ts';
import { lifted } from './lifting.ts';
import { campaignName } from './name.ts';
import { packed } from './pack.ts';
import { crew, newRowId, nextSeq, timeWithOffset } from './reading.ts';
import type { Cells, Store } from './store.ts';

/** Origins of transactions: only interpretations can be undone. */
const READING = Symbol('reading');
const INTERPRETATION = Symbol('interpretation');
const ELSEWHERE = Symbol('another tab, or the device');

/** So many changes are kept one by one before they are written as one. */
const MERGE_BEYOND = 300;
const TRY_AGAIN_MS = 2000;

const INTERPRETED = (Object.keys(schemas) as TableName[]).filter((name) => !isReadings(name));

/**
 * Opens a campaign of this device; null where there is none of that id. Rejects where a newer Stillstand keeps it in a
 * way this one does not know, and where the device does not answer.
 */
export async function openStore(id: string): Promise<Store | null> {
  const channel = new BroadcastChannel(`stillstand/${id}`);
  try {
    // Listening starts before reading, so that no change falls between. Two tabs must not lift one campaign twice.
    const kept = await alone(`stillstand/${id}`, () => readLifted(id, channel));
    if (kept === null) {
      channel.close();
      return null;
    }
    if (kept.count > MERGE_BEYOND) void database.mergeUpdates(id, Y.mergeUpdates);
    await database.changeRecord(id, { opened_ms: Date.now() });
    return openedStore(kept.doc, kept.record, kept.last, channel);
  } catch (error) {
    channel.close();
    throw error;
  }
}

/** What the device keeps of a campaign, lifted to the version this Stillstand writes; the lifted is kept before it is used. */
async function readLifted(id: string, channel: BroadcastChannel) {
  const kept = await database.readUpdates(id, 0);
  if (kept === null) return null;
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const update of kept.updates) Y.applyUpdate(doc, update);
  }, ELSEWHERE);
  if (!isKnownLayout(doc)) throw new Error('a newer Stillstand keeps this campaign: take the newer one');
  const { record, updates, last } = kept;
  const whole = { doc, record, last, count: updates.length };
  if (record.read_only) return whole;
  const { update, read_only, problems } = lifted(doc);
  if (update !== null) {
    whole.last = await database.keepUpdate(id, update);
    channel.postMessage('changed');
  }
  if (read_only) whole.record = { ...record, read_only, problems: [...record.problems, ...problems] };
  return whole;
}

/** Runs `work` while no other tab does work of that name. */
const alone = <T>(name: string, work: () => Promise<T>): Promise<T> =>
  // Only a page that is served safely has locks; without them two tabs are not opened in the same second.
  'locks' in navigator ? navigator.locks.request(name, work) : work();

function openedStore(
  doc: Y.Doc,
  record: database.CampaignRecord,
  lastRead: number,
  channel: BroadcastChannel,
): Store {
  const { id } = record;
  const listeners = new Set<() => void>();
  let version = 0;
  const tell = (): void => {
    version += 1;
    for (const listener of [...listeners]) listener();
  };

  // Reading out, table by table, only what changed.
  const memories = new Map<string, TableMemory>();
  const reads = new Map<string, TableRead | null>();
  let snapshot: CampaignDocument | null = null;
  doc.on('afterTransaction', (transaction: Y.Transaction) => {
    if (transaction.changed.size === 0) return;
    const types: ReadonlyMap<unknown, unknown> = transaction.changedParentTypes;
    for (const [name, shared] of doc.share) if (types.has(shared)) reads.delete(tableOf(name));
    snapshot = null;
    tell();
  });
  const tableRead = (name: string): TableRead | null => {
    const known = reads.get(name);
    if (known !== undefined) return known;
    const memory = memories.get(name) ?? { layout: '', rows: new WeakMap() };
    memories.set(name, memory);
    const read = readTable(doc, name, memory);
    reads.set(name, read);
    return read;
  };
  const document = (): CampaignDocument => {
    if (snapshot !== null) return snapshot;
    snapshot = readDocument(doc, tableRead);
    return snapshot;
  };
  const rows = (table: TableName): readonly DocRow[] => tableRead(table)?.rows ?? [];

  // Writing.
  let waiting: Uint8Array[] = [];
  let writing: Promise<void> | null = null;
  let failure: string | null = null;
  let isClosed = false;
  let changesSinceExport = record.changes_since_export;
  let exported_ms = record.exported_ms;
  const write = async (): Promise<void> => {
    while (waiting.length > 0) {
      const taken = waiting;
      waiting = [];
      try {
        await database.keepUpdate(id, taken.length === 1 ? taken[0]! : Y.mergeUpdates(taken));
        failure = null;
        channel.postMessage('changed');
      } catch (error) {
        waiting = [...taken, ...waiting];
        failure = error instanceof Error ? error.message : String(error);
        if (!isClosed) setTimeout(startWriting, TRY_AGAIN_MS);
        return;
      }
    }
  };
  const startWriting = (): void => {
    if (writing !== null || waiting.length === 0) return;
    writing = write().finally(() => {
      writing = null;
      tell();
    });
  };
  doc.on('update', (update: Uint8Array, origin: unknown) => {
    if (origin === ELSEWHERE) return;
    waiting.push(update);
    changesSinceExport += 1;
    startWriting();
  });

  // Other tabs.
  let isReadOnly = record.read_only;
  let isCatching = false;
  let isBehind = false;
  const catchUp = async (): Promise<void> => {
    do {
      isBehind = false;
      const found = await database.readUpdates(id, lastRead);
      if (found === null || isClosed) return;
      lastRead = found.last;
      changesSinceExport = found.record.changes_since_export;
      exported_ms = found.record.exported_ms;
      doc.transact(() => {
        for (const update of found.updates) Y.applyUpdate(doc, update, ELSEWHERE);
      }, ELSEWHERE);
      // A newer Stillstand in another tab may have lifted it under this one.
      if (!isReadOnly && lift(document()).read_only) {
        isReadOnly = true;
        tell();
      }
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
  const whenSeen = (): void => {
    if (globalThis.document.visibilityState === 'visible') beCaughtUp();
  };
  const holdPage = (event: BeforeUnloadEvent): void => {
    if (waiting.length > 0 || writing !== null) event.preventDefault();
  };
  channel.addEventListener('message', beCaughtUp);
  globalThis.document.addEventListener('visibilitychange', whenSeen);
  globalThis.addEventListener('beforeunload', holdPage);

  const undoManager = new Y.UndoManager(
    INTERPRETED.map((name) => parts(doc, name).rows),
    { trackedOrigins: new Set([INTERPRETATION]), captureTimeout: 0, doc },
  );

  const demandWritable = (): void => {
    if (isReadOnly) throw new RangeError(`campaign ${id} is read only`);
    if (isClosed) throw new RangeError(`campaign ${id} is closed`);
  };
  const demandInterpretation = (table: TableName): void => {
    demandWritable();
    if (isReadings(table)) throw new RangeError(`${table} holds readings: they are amended, never edited`);
  };
  /** Changes one table; inside `together` it joins that one transaction, and is seen by what follows there. */
  const change = (origin: symbol, table: TableName, what: () => void): void => {
    doc.transact(what, origin);
    reads.delete(table);
    snapshot = null;
  };
  const find = (table: TableName, row_id: string): number => {
    const at = rows(table).findIndex((row) => row.row_id === row_id);
    if (at === -1) throw new RangeError(`no row ${row_id} in ${table}`);
    return at;
  };
  /** In a table whose numbers are written 3,05, what is entered here must be too. */
  const asTableWrites = (table: TableName, cells: Cells): Cells => {
    if (tableRead(table)?.table.dialect.decimal_comma !== true) return cells;
    const columns: Readonly<Record<string, { kind: string }>> = schemas[table].columns;
    const isNumeric = (column: string): boolean =>
      /^(?:number|length|tide)$/.test(columns[column]?.kind ?? '');
    return Object.fromEntries(
      Object.entries(cells).map(([column, cell]) => [
        column,
        isNumeric(column) ? cell.replace(/(\d?)\.(\d)/g, '$1,$2') : cell,
      ]),
    );
  };
  const addReading = (table: TableName, cells: Cells): string => {
    demandWritable();
    if (!isReadings(table)) throw new RangeError(`${table} holds no readings: use addRow`);
    const who = crew();
    const given = Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));
    const row: Record<string, string> = {
      seq: given['seq'] ?? nextSeq(cells, rows),
      time: timeWithOffset(new Date()),
      ...(who.by === '' ? {} : { by: who.by }),
      ...(who.device === '' ? {} : { device: who.device }),
      ...asTableWrites(table, given),
      row_id: given['row_id'] ?? newRowId(),
    };
    change(READING, table, () => append(doc, table, row));
    return row['row_id']!;
  };
  const withdrawOne = (table: TableName, row: DocRow): string => {
    const series = Object.fromEntries(
      ['hole', 'loop', 'gauge', 'seq'].flatMap((column) =>
        row.cells[column] ? [[column, row.cells[column]]] : [],
      ),
    );
    return addReading(table, { ...series, amends: row.row_id, amend_kind: 'withdraw' });
  };
  const addRow = (table: TableName, cells: Cells): string => {
    demandInterpretation(table);
    const given = Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));
    const row_id = given['row_id'] ?? newRowId();
    change(INTERPRETATION, table, () => append(doc, table, { ...asTableWrites(table, given), row_id }));
    return row_id;
  };
  const editRow = (table: TableName, row_id: string, cells: Cells): void => {
    demandInterpretation(table);
    const at = find(table, row_id);
    const before = rows(table)[at]!.cells;
    const changed = Object.entries(asTableWrites(table, cells)).filter(
      ([column, cell]) => (before[column] ?? '') !== cell,
    );
    if (changed.length > 0) {
      change(INTERPRETATION, table, () => edit(doc, table, at, Object.fromEntries(changed)));
    }
  };
  const removeRow = (table: TableName, row_id: string): void => {
    demandInterpretation(table);
    const at = find(table, row_id);
    change(INTERPRETATION, table, () => remove(doc, table, at));
  };
  const settingRow = (name: string): DocRow | undefined =>
    rows('settings').find((row) => row.cells['name']?.trim() === name);

  return {
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
    addReading,
    amend: (table, row_id, cells) => {
      const target = amending(rows(table)).standing(row_id);
      if (target === null) throw new RangeError(`no reading ${row_id} stands in ${table}`);
      const { row_id: _, amends: __, amend_kind: ___, ...kept } = target.cells;
      return addReading(table, { ...kept, ...cells, amends: target.row_id, amend_kind: 'replace' });
    },
    withdraw: (table, row_id) => {
      const targets = amending(rows(table)).toWithdraw(row_id);
      if (targets.length === 0) throw new RangeError(`no reading ${row_id} in ${table}`);
      let last = '';
      change(READING, table, () => {
        for (const target of targets) last = withdrawOne(table, target);
      });
      return last;
    },
    addRow,
    editRow,
    removeRow,
    together: (edits) => {
      demandWritable();
      doc.transact(edits, INTERPRETATION);
    },
    undo: () => {
      demandWritable();
      undoManager.undo();
    },
    redo: () => {
      demandWritable();
      undoManager.redo();
    },
    get canUndo() {
      return undoManager.undoStack.length > 0;
    },
    get canRedo() {
      return undoManager.redoStack.length > 0;
    },
    setting: (name) => settingRow(name)?.cells['value'] ?? null,
    setSetting: (name, value) => {
      const row = settingRow(name);
      if (row === undefined) {
        if (value !== '') addRow('settings', { name, value });
      } else if (value === '') removeRow('settings', row.row_id);
      else editRow('settings', row.row_id, { value });
    },
    addFile: async (bytes, type) => {
      demandWritable();
      const folder = type.startsWith('image/') ? 'photos' : 'files';
      const path = `${folder}/${await contentHash(bytes)}.${ending(type)}`;
      await database.addFile({
        campaign: id,
        path,
        blob: new Blob([bytes as Uint8Array<ArrayBuffer>], { type }),
      });
      return path;
    },
    file: (path) => database.readFile(id, path),
    filePaths: () => database.filePaths(id),
    get saved() {
      if (failure !== null) return 'failed';
      return waiting.length > 0 || writing !== null ? 'saving' : 'saved';
    },
    get failure() {
      return failure;
    },
    exportZip: async () => {
      const zip = await packed(document(), await database.filePaths(id), (path) =>
        database.readFile(id, path),
      );
      exported_ms = Date.now();
      changesSinceExport = 0;
      await database.changeRecord(id, { exported_ms, changes_since_export: 0 });
      tell();
      return zip;
    },
    keptElsewhere: () => ({ changes: changesSinceExport, exported_ms }),
    close: async () => {
      startWriting();
      await writing;
      await database.changeRecord(id, { name: campaignName(document()) });
      isClosed = true;
      channel.close();
      globalThis.document.removeEventListener('visibilitychange', whenSeen);
      globalThis.removeEventListener('beforeunload', holdPage);
      listeners.clear();
      doc.destroy();
    },
  };
}

/** "rows:holes" belongs to holes. */
const tableOf = (sharedName: string): string => sharedName.slice(sharedName.indexOf(':') + 1);

async function contentHash(bytes: Uint8Array): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** "image/jpeg" ends in jpg. */
function ending(type: string): string {
  const kind = type.slice(type.indexOf('/') + 1).replace(/[^a-z0-9]/g, '');
  return kind === 'jpeg' ? 'jpg' : kind === '' ? 'bin' : kind;
}
