/**
 * A campaign's document as a Yjs document, without loss both ways. Everything people typed is in it: cells, headings,
 * unknown columns and tables, and the package; the bytes that were read stay beside it until a table is edited, so
 * that what nobody touched is written back as the very bytes it came from. Photos and other files are kept apart.
 *
 * Readings are plain values in a list that only grows. Rows of other tables are maps: what was read, and over it each
 * edited cell by its column, so that two devices may edit two cells of one row. A deleted row stays, marked with what it
 * said then: it can be restored in its place and under its identity, by as many devices as find that it is needed, and
 * an edit made elsewhere at the same time is not lost with it.
 *
 * Long because reading out and writing are the two sides of how a row is kept.
 */
import {
  type CampaignDocument,
  type Dialect,
  type DocumentRow,
  type DocumentTable,
  type JsonObject,
  resource,
} from '@stillstand/campaign/document';
import { isTableName, namedColumns, plainWord, schemas, type TableName } from '@stillstand/campaign/tables';
import * as Y from 'yjs';

/** A row as it was read, or, for a reading, as it was entered: `r` by column. Plain values only. */
interface StoredRow {
  /** Cells as read, in the order of the headings then. */
  c?: string[];
  /** Cells entered here, by column. */
  r?: Record<string, string>;
  /** Line of the file it was read from. */
  l?: number;
  /** Text stood behind a closing quotation mark. */
  q?: true;
  /** Its identity, where the cell row_id does not say it. */
  i?: string;
}

/** How a table is written down. */
interface StoredForm {
  path: string;
  dialect: Dialect;
  /** Headings it was read with; cells of a row beyond them stand under none. */
  width: number;
}

/** A row as screens see it: cells by heading. */
export interface DocRow {
  readonly row_id: string;
  readonly cells: Readonly<Record<string, string>>;
  /** Line in the file it came from or will be written to, as a spreadsheet numbers it. */
  readonly line: number;
}

const ROW_ID = 'row_id';
/** In front of a column's name where a row map holds an edited cell. */
const CELL = '=';
/** In front of a column and what stood in it, where rows may be named by it: `~hole=H3`. */
const FORMER = '~';
/** What the row said when it was deleted; a row that says something else now was edited since, and is there. */
const DELETED = 'deleted';

const PLAIN: Dialect = { delimiter: ',', line_end: '\n', bom: false, decimal_comma: false, sep_line: false };

/** True for append-only tables. Tables we do not know are never edited, and count as such. */
export const isReadings = (table: string): boolean => !isTableName(table) || schemas[table].readings;

/** The shared types of one table; the same names in every copy of the document, so that copies merge. */
function parts(doc: Y.Doc, table: string) {
  return {
    rows: doc.getArray<StoredRow | Y.Map<unknown>>(`rows:${table}`),
    /** Headings: id (its name, unless that is empty or stands twice) and name. */
    columns: doc.getArray<[string, string]>(`columns:${table}`),
    /** `form`: StoredForm; `bytes`: the file as read; `edited`: true once any cell changed. */
    about: doc.getMap<StoredForm | Uint8Array | true>(`about:${table}`),
  };
}

/** Version of this way of keeping a document; a campaign kept by a newer one is not opened. */
const LAYOUT = 1;

/** False where a newer Stillstand keeps the campaign in a way this one does not know. */
export const isKnownLayout = (doc: Y.Doc): boolean => Number(whole(doc).get('layout') ?? LAYOUT) <= LAYOUT;

/** The campaign as a whole: `layout`, `package` (JSON), `package_bytes` as read, `tables` (names in order). */
const whole = (doc: Y.Doc): Y.Map<string | number | Uint8Array | string[]> => doc.getMap('campaign');

/** Names of the tables the document has, in the order of the package, then those begun here. */
function tableNames(doc: Y.Doc): string[] {
  const listed = (whole(doc).get('tables') as string[] | undefined) ?? [];
  const begun = Object.keys(schemas).filter(
    (name) =>
      !listed.includes(name) &&
      parts(doc, name)
        .rows.toArray()
        .some((row) => !isDeleted(row)),
  );
  return [...listed, ...begun];
}

/**
 * Puts a document into an empty Yjs document. `row_ids` are the identities of rows whose cells do not state one (table,
 * then line).
 */
export function fill(
  doc: Y.Doc,
  from: CampaignDocument,
  row_ids: ReadonlyMap<string, ReadonlyMap<number, string>> = new Map(),
): void {
  doc.transact(() => {
    const campaign = whole(doc);
    campaign.set('layout', LAYOUT);
    campaign.set('tables', [...from.tables.keys()]);
    if (from.package !== null) campaign.set('package', JSON.stringify(from.package));
    if (from.source !== null) campaign.set('package_bytes', from.source.bytes);
    if (from.source !== null && from.source.package !== from.package) campaign.set('package_edited', 'yes');
    for (const [name, table] of from.tables) fillTable(doc, name, table, row_ids.get(name));
  });
}

/** Puts one table into the empty parts of its name. */
function fillTable(
  doc: Y.Doc,
  name: string,
  table: DocumentTable,
  row_ids: ReadonlyMap<number, string> | undefined,
): void {
  const { rows, columns, about } = parts(doc, name);
  about.set('form', { path: table.path, dialect: table.dialect, width: table.columns.length });
  const { source } = table;
  if (source !== null) about.set('bytes', source.bytes);
  if (source?.rows !== table.rows || source.columns !== table.columns) about.set('edited', true);
  columns.push(named(name, table.columns));
  const column = table.columns.indexOf(ROW_ID);
  const stored = table.rows.map((row): StoredRow => {
    const id = row_ids?.get(row.line);
    return {
      c: [...row.cells],
      l: row.line,
      ...(row.stray_quote ? { q: true } : {}),
      ...(id === undefined || id === row.cells[column]?.trim() ? {} : { i: id }),
    };
  });
  rows.push(isReadings(name) ? stored : stored.map((row) => new Y.Map(Object.entries(row))));
}

/**
 * Writes a document over the one that was read from `doc`: what is the same object in both stays untouched. Rows of a
 * changed table keep the identity their line had; `row_ids` are those of the others.
 */
export function overwrite(
  doc: Y.Doc,
  before: CampaignDocument,
  after: CampaignDocument,
  row_ids: ReadonlyMap<string, ReadonlyMap<number, string>>,
): void {
  doc.transact(() => {
    const campaign = whole(doc);
    if (after.package !== before.package) {
      campaign.set('package_edited', 'yes');
      if (after.package === null) campaign.delete('package');
      else campaign.set('package', JSON.stringify(after.package));
    }
    for (const name of new Set([...before.tables.keys(), ...after.tables.keys()])) {
      const table = after.tables.get(name);
      if (table === before.tables.get(name)) continue;
      const known = readTable(doc, name, { layout: '', rows: new WeakMap() })?.rows ?? [];
      const { rows, columns, about } = parts(doc, name);
      rows.delete(0, rows.length);
      columns.delete(0, columns.length);
      about.clear();
      if (table === undefined) continue;
      const kept = known.map(({ line, row_id }) => [line, row_id] as const);
      fillTable(doc, name, table, new Map([...(row_ids.get(name) ?? []), ...kept]));
    }
    campaign.set('tables', [...after.tables.keys()]);
  });
}

/** Headings with their ids: the column of ours that the heading means, else its own words. */
function named(table: string, columns: readonly string[]): [string, string][] {
  const taken = new Set<string>();
  return columns.map((heading, i) => {
    const plain = plainWord(heading.replace(/^\ufeff/, ''));
    const isOurs = isTableName(table) && Object.hasOwn(schemas[table].columns, plain);
    const id = isOurs ? plain : heading;
    if (id === '' || taken.has(id)) return [`${id}#${i}`, heading];
    taken.add(id);
    return [id, heading];
  });
}

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
  const { rows, columns, about } = parts(doc, name);
  const listed = ((whole(doc).get('tables') as string[] | undefined) ?? []).includes(name);
  if (!listed && rows.length === 0) return null;
  const form = about.get('form') as StoredForm | undefined;
  const bytes = about.get('bytes') as Uint8Array | undefined;
  const isAsRead = bytes !== undefined && about.get('edited') !== true;
  const heads = headings(name, columns, isAsRead, rows);
  const layout = heads.map(([id]) => id).join('\u0000');
  if (memory.layout !== layout) {
    memory.rows = new WeakMap();
    memory.layout = layout;
  }
  const dialect = form?.dialect ?? PLAIN;
  const width = form?.width ?? 0;
  const read: ReadRow[] = [];
  const places: number[] = [];
  const deleted: { row: DocRow; place: number }[] = [];
  const former: { row_id: string; column: string; cell: string }[] = [];
  for (const [place, stored] of rows.toArray().entries()) {
    // Rows are numbered as the file that will be written numbers them: the headings are line 1.
    const row = readRow(stored, heads, width, memory.rows, isAsRead ? null : read.length + 2);
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

function formerName(row_id: string, key: string): { row_id: string; column: string; cell: string } {
  const at = key.indexOf('=');
  return { row_id, column: key.slice(FORMER.length, at), cell: key.slice(at + 1) };
}

const isDeleted = (stored: StoredRow | Y.Map<unknown>): boolean =>
  stored instanceof Y.Map && stored.has(DELETED) && stored.get(DELETED) === said(stored);

/** All that a row says, in an order that does not depend on who wrote it when. */
const said = (map: Y.Map<unknown>): string =>
  JSON.stringify(
    [...map.entries()]
      .filter(([key]) => key !== DELETED && !key.startsWith(FORMER))
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

/** Rows read out before, by what they were read from. */
export interface TableMemory {
  layout: string;
  rows: WeakMap<object, ReadRow>;
}

interface ReadRow {
  row: DocumentRow;
  seen: DocRow;
}

/** Headings with ids: those of the file, then those of rows entered here. An edited table always has row_id. */
function headings(
  name: string,
  columns: Y.Array<[string, string]>,
  isAsRead: boolean,
  rows: Y.Array<StoredRow | Y.Map<unknown>>,
): [string, string][] {
  const heads = columns.toArray();
  const seen = new Set<string>();
  const list = heads.filter(([id]) => !seen.has(id) && seen.add(id));
  if (isAsRead) return list;
  if (list.length === 0 && isTableName(name)) {
    for (const column of Object.keys(schemas[name].columns)) {
      list.push([column, column]);
      seen.add(column);
    }
  }
  if (!seen.has(ROW_ID) && rows.length > 0) list.push([ROW_ID, ROW_ID]);
  return list;
}

function readRow(
  stored: StoredRow | Y.Map<unknown>,
  heads: readonly [string, string][],
  width: number,
  memory: WeakMap<object, ReadRow>,
  line: number | null,
): ReadRow {
  const known = memory.get(stored);
  // A reading as written never changes; a map may have, and is compared below.
  const isSame = known !== undefined && (line === null || known.row.line === line);
  if (isSame && !(stored instanceof Y.Map)) return known;
  const plain: StoredRow = stored instanceof Y.Map ? fromMap(stored) : stored;
  const idAt = heads.findIndex(([id]) => id === ROW_ID);
  const entered: Record<string, string> = { ...plain.r };
  const typedId = (entered[ROW_ID] ?? (idAt < width ? plain.c?.[idAt] : undefined) ?? '').trim();
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
    seen: { row_id: plain.i ?? typedId, cells: byHead, line: at },
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
  const listed = (whole(doc).get('tables') as string[] | undefined) ?? [];
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

/** Appends a reading or a row. */
export function append(doc: Y.Doc, table: TableName, cells: Readonly<Record<string, string>>): void {
  const { rows, columns, about } = parts(doc, table);
  noteEdit(about, columns, table, cells);
  rows.push([
    isReadings(table)
      ? { r: { ...cells } }
      : new Y.Map(Object.entries(cells).map(([column, cell]) => [CELL + column, cell])),
  ]);
}

/** Sets cells of the row at that place; it is no reading. What it was called before is kept with it. */
export function edit(
  doc: Y.Doc,
  table: TableName,
  place: number,
  cells: Readonly<Record<string, string>>,
  before: Readonly<Record<string, string>> = {},
): void {
  const { rows, columns, about } = parts(doc, table);
  noteEdit(about, columns, table, cells);
  const row = rows.get(place) as Y.Map<unknown>;
  const named = namedColumns(table);
  for (const [column, cell] of Object.entries(cells)) {
    const was = before[column]?.trim() ?? '';
    if (named.has(column) && was !== '' && was !== cell.trim()) row.set(`${FORMER}${column}=${was}`, true);
    row.set(CELL + column, cell);
  }
  // An edited row is there, whoever deleted it before.
  row.delete(DELETED);
}

/** Marks the row at that place as deleted; it is no reading. */
export function remove(doc: Y.Doc, table: TableName, place: number): void {
  const { rows, columns, about } = parts(doc, table);
  noteEdit(about, columns, table, {});
  const row = rows.get(place) as Y.Map<unknown>;
  row.set(DELETED, said(row));
}

/** Restores the deleted row at that place. */
export const restore = (doc: Y.Doc, table: TableName, place: number): void =>
  (parts(doc, table).rows.get(place) as Y.Map<unknown>).delete(DELETED);

/** Marks the table as edited, and gives it the headings the cells need. */
function noteEdit(
  about: Y.Map<StoredForm | Uint8Array | true>,
  columns: Y.Array<[string, string]>,
  table: TableName,
  cells: Readonly<Record<string, string>>,
): void {
  if (about.get('edited') !== true) about.set('edited', true);
  const heads = new Set(
    columns.length === 0 ? Object.keys(schemas[table].columns) : columns.map(([id]) => id),
  );
  const needed = Object.keys(cells).filter((column) => !heads.has(column) && column !== ROW_ID);
  if (columns.length === 0 && needed.length > 0) columns.push([...heads].map((head) => [head, head]));
  if (needed.length > 0) columns.push(needed.map((column) => [column, column]));
}
