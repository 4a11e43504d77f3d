/** The document read out of the Yjs document, table by table; what did not change is the same object as before. */
import {
  type CampaignDocument,
  type DocumentRow,
  type DocumentTable,
  type JsonObject,
  newColumn,
  renamedColumns,
  resource,
  tableCalled,
} from '@stillstand/campaign/document';
import { isColumnForLater, isTableName, schemas } from '@stillstand/campaign/tables';
import * as Y from 'yjs';
import {
  CELL,
  columnCalled,
  DELETED,
  type DocRow,
  FORMER,
  isDeleted,
  PLAIN,
  parts,
  ROW_ID,
  type StoredForm,
  type StoredRow,
  tableNames,
  whole,
} from './layout.ts';

/** One table of the document, read out. */
export interface TableRead {
  table: DocumentTable;
  rows: readonly DocRow[];
  /** Place of each row among those kept. */
  places: readonly number[];
  /** Rows that were deleted, with their places; `line` says nothing. */
  deleted: readonly { row: DocRow; place: number }[];
  /** What rows were called before, in columns by which they are named; deleted rows too. */
  former: readonly { row_id: string; column: string; cell: string }[];
}

/**
 * Reads one table out; null where there is none. Rows that did not change are the same objects as before (`memory`,
 * kept by the caller), which is what makes an appended reading cheap.
 */
export function readTable(doc: Y.Doc, name: string, memory: TableMemory): TableRead | null {
  const { rows, columns, about, migrated } = parts(doc, name);
  const listed = ((whole(doc).get('tables') as string[] | undefined) ?? []).map(tableCalled).includes(name);
  if (!listed && rows.length === 0) return null;
  const form = about.get('form') as StoredForm | undefined;
  const bytes = about.get('bytes') as Uint8Array | undefined;
  const width = form?.width ?? 0;
  const isAsRead = bytes !== undefined && about.get('edited') !== true;
  const heads = headings(name, columns, width, isAsRead, rows);
  const layout = heads.map(([id]) => id).join('\u0000');
  if (memory.layout !== layout) {
    memory.rows = new WeakMap();
    memory.layout = layout;
  }
  const dialect = form?.dialect ?? PLAIN;
  const read: ReadRow[] = [];
  const places: number[] = [];
  const deleted: { row: DocRow; place: number }[] = [];
  const former: { row_id: string; column: string; cell: string }[] = [];
  const entered = new Map<string, StoredRow>();
  for (const [place, stored] of rows.toArray().entries()) {
    if (!(stored instanceof Y.Map) && isEnteredTwice(stored, entered)) continue;
    // Rows are numbered as the file that will be written numbers them: the headings are line 1.
    const row = readRow(name, stored, heads, width, memory.rows, isAsRead ? null : read.length + 2, migrated);
    if (stored instanceof Y.Map) {
      for (const key of stored.keys())
        if (key.startsWith(FORMER)) former.push(formerName(row.seen.row_id, key));
    }
    if (isDeleted(stored)) deleted.push({ row: row.seen, place });
    else {
      read.push(row);
      places.push(place);
    }
  }
  const documentColumns = heads.map(([, head]) => head);
  const documentRows = read.map(({ row }) => row);
  return {
    table: {
      path: form?.path ?? `${name}.csv`,
      columns: documentColumns,
      rows: documentRows,
      dialect,
      source:
        bytes === undefined
          ? null
          : isAsRead
            ? { columns: documentColumns, rows: documentRows, dialect, bytes }
            : { columns: [], rows: [], dialect, bytes },
    },
    rows: read.map(({ seen }) => seen),
    places,
    deleted,
    former,
  };
}

/**
 * A reading that two devices entered under one identity and in the same words, each from a third that neither had a
 * history in common with: it is one.
 */
function isEnteredTwice(stored: StoredRow, entered: Map<string, StoredRow>): boolean {
  const row_id = stored.r?.[ROW_ID] ?? '';
  if (stored.c !== undefined || row_id === '') return false;
  const first = entered.get(row_id);
  if (first === undefined) entered.set(row_id, stored);
  return first !== undefined && inOrder(first.r!) === inOrder(stored.r!);
}

const inOrder = (cells: Readonly<Record<string, string>>): string =>
  JSON.stringify(Object.entries(cells).sort(([a], [b]) => (a < b ? -1 : 1)));

function formerName(row_id: string, key: string): { row_id: string; column: string; cell: string } {
  const at = key.indexOf('=');
  return { row_id, column: key.slice(FORMER.length, at), cell: key.slice(at + 1) };
}

/** Rows read out before, by what they were read from. */
export interface TableMemory {
  layout: string;
  rows: WeakMap<object, ReadRow>;
}

interface ReadRow {
  row: DocumentRow;
  seen: DocRow;
  /** What a newer version of the document says otherwise. */
  migrated: Readonly<Record<string, string>> | undefined;
}

/** Headings with ids: those of the file, then those of rows entered here. An edited table always has row_id. */
function headings(
  name: string,
  columns: Y.Array<[string, string]>,
  width: number,
  isAsRead: boolean,
  rows: Y.Array<StoredRow | Y.Map<unknown>>,
): [string, string][] {
  const seen = new Set<string>();
  const list: [string, string][] = [];
  for (const [i, [kept, heading]] of columns.toArray().entries()) {
    const id = columnCalled(name, kept);
    // Cells of a row as read lie by the place of their heading: one of those stays whatever it means.
    if (!seen.has(id)) list.push([id, !isAsRead && newColumn(name, heading) === id ? id : heading]);
    else if (i < width) list.push([`${id}#${i}`, heading]);
    seen.add(id);
  }
  if (isAsRead) return list;
  if (list.length === 0 && isTableName(name)) {
    for (const column of Object.keys(schemas[name].columns)) {
      if (isColumnForLater(name, column)) continue;
      list.push([column, column]);
      seen.add(column);
    }
  }
  if (!seen.has(ROW_ID) && rows.length > 0) list.push([ROW_ID, ROW_ID]);
  return list;
}

/** Cells entered here, by the columns of today; what was entered under a name of today is the later. */
function byColumnsOfToday(
  entered: Readonly<Record<string, string>>,
  table: string,
): Readonly<Record<string, string>> {
  const renamed = renamedColumns(table);
  if (!Object.keys(entered).some((column) => renamed.has(column))) return entered;
  const old = Object.entries(entered).map(([kept, cell]) => [renamed.get(kept) ?? kept, cell]);
  return {
    ...Object.fromEntries(old),
    ...Object.fromEntries(Object.entries(entered).filter(([kept]) => !renamed.has(kept))),
  };
}

function readRow(
  name: string,
  stored: StoredRow | Y.Map<unknown>,
  heads: readonly [string, string][],
  width: number,
  memory: WeakMap<object, ReadRow>,
  line: number | null,
  migrated: Y.Map<Readonly<Record<string, string>>>,
): ReadRow {
  const known = memory.get(stored);
  // A reading as written never changes; a map may have, and is compared below.
  const isSame = known !== undefined && (line === null || known.row.line === line);
  if (isSame && !(stored instanceof Y.Map) && known.migrated === migrated.get(known.seen.row_id))
    return known;
  const plain: StoredRow = stored instanceof Y.Map ? fromMap(stored) : stored;
  const idAt = heads.findIndex(([id]) => id === ROW_ID);
  const own = byColumnsOfToday(plain.r ?? {}, name);
  const typedId = (own[ROW_ID] ?? (idAt < width ? plain.c?.[idAt] : undefined) ?? '').trim();
  const row_id = plain.i ?? typedId;
  const later = migrated.get(row_id);
  // What a person edits stands over what was migrated; a reading is never edited.
  const entered: Record<string, string> =
    stored instanceof Y.Map ? { ...later, ...own } : { ...own, ...later };
  // An edited table states the identity of every row: what it was derived from may change now.
  if (line !== null && (idAt >= width || typedId === '') && plain.i !== undefined) entered[ROW_ID] = plain.i;
  const cells = laidOut(plain.c ?? null, entered, heads, width);
  if (isSame && isEqual(known.row.cells, cells)) return known;
  const byHead: Record<string, string> = {};
  heads.forEach(([id], i) => {
    byHead[id] = i < width || plain.c === undefined || Object.hasOwn(entered, id) ? (cells[i] ?? '') : '';
  });
  const at = line ?? plain.l ?? 0;
  const read: ReadRow = {
    row: plain.q ? { cells, line: at, stray_quote: true } : { cells, line: at },
    seen: { row_id, cells: byHead, line: at },
    migrated: later,
  };
  memory.set(stored, read);
  return read;
}

const isEqual = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((cell, i) => cell === b[i]);

/** Cells under their headings; a row as read keeps its length, and what stood under no heading stays so. */
function laidOut(
  read: readonly string[] | null,
  entered: Readonly<Record<string, string>>,
  heads: readonly [string, string][],
  width: number,
): string[] {
  if (read === null) return heads.map(([id]) => entered[id] ?? '');
  const cells = read.slice(0, width);
  const surplus = read.slice(width);
  heads.forEach(([id], i) => {
    const cell = entered[id];
    if (cell === undefined) return;
    while (cells.length < i) cells.push('');
    cells[i] = cell;
  });
  if (surplus.length === 0) return cells;
  while (cells.length < heads.length) cells.push('');
  return [...cells, ...surplus];
}

function fromMap(map: Y.Map<unknown>): StoredRow {
  const row: StoredRow = {};
  const entered: Record<string, string> = {};
  for (const [key, value] of map.entries()) {
    if (key.startsWith(CELL)) entered[key.slice(1)] = value as string;
    else if (key !== DELETED && !key.startsWith(FORMER)) Object.assign(row, { [key]: value });
  }
  if (Object.keys(entered).length > 0 || row.c === undefined) row.r = entered;
  return row;
}

/** The whole document, its tables read by `table`. Photos and other files are kept apart. */
export function readDocument(
  doc: Y.Doc,
  table: (name: string) => TableRead | null = (name) =>
    readTable(doc, name, { layout: '', rows: new WeakMap() }),
): CampaignDocument {
  const tables = new Map<string, DocumentTable>();
  for (const name of tableNames(doc)) {
    const read = table(name);
    if (read !== null) tables.set(name, read.table);
  }
  return { ...readPackage(doc, tables), tables, files: new Map() };
}

/** The package as it stands: what was read, with the tables begun here put into its list. */
export function readPackage(
  doc: Y.Doc,
  tables: ReadonlyMap<string, DocumentTable>,
): Pick<CampaignDocument, 'package' | 'source'> {
  const text = whole(doc).get('package') as string | undefined;
  const bytes = whole(doc).get('package_bytes') as Uint8Array | undefined;
  const description = text === undefined ? null : parsed(text);
  const listed = ((whole(doc).get('tables') as string[] | undefined) ?? []).map(tableCalled);
  const begun = [...tables].filter(([name]) => !listed.includes(name));
  if (begun.length > 0 && description !== null) {
    const before = description as { resources?: unknown };
    const resources = Array.isArray(before.resources) ? (before.resources as JsonObject[]) : [];
    return {
      package: {
        ...description,
        resources: [...resources, ...begun.map(([name, { path }]) => resource(name, path))],
      },
      source: bytes === undefined ? null : { package: null, bytes },
    };
  }
  const isEdited = whole(doc).has('package_edited');
  return {
    package: description,
    source: bytes === undefined ? null : { package: isEdited ? null : description, bytes },
  };
}

/** The package is long and seldom another: the last one read is kept. */
let lastParsed: { text: string; description: JsonObject } | null = null;
function parsed(text: string): JsonObject {
  if (lastParsed?.text !== text) lastParsed = { text, description: JSON.parse(text) as JsonObject };
  return lastParsed.description;
}
