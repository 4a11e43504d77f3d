/** Rows appended, edited, deleted and restored in the Yjs document; the caller makes the transaction. */
import { isTableName, namedColumns, schemas, type TableName } from '@stillstand/campaign/tables';
import * as Y from 'yjs';
import {
  CELL,
  columnCalled,
  DELETED,
  FORMER,
  isReadings,
  parts,
  ROW_ID,
  type StoredForm,
  said,
} from './layout.ts';

/** Appends readings or rows, all at once: a list of Yjs is walked through for each time that it is appended to. */
export function append(
  doc: Y.Doc,
  table: TableName,
  added: readonly Readonly<Record<string, string>>[],
): void {
  const { rows, columns, about } = parts(doc, table);
  noteEdit(about, columns, table, [...new Set(added.flatMap((cells) => Object.keys(cells)))]);
  rows.push(
    added.map((cells) =>
      isReadings(table)
        ? { r: { ...cells } }
        : new Y.Map(Object.entries(cells).map(([column, cell]) => [CELL + column, cell])),
    ),
  );
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
  noteEdit(about, columns, table, Object.keys(cells));
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
  noteEdit(about, columns, table, []);
  const row = rows.get(place) as Y.Map<unknown>;
  row.set(DELETED, said(row));
}

/** Restores the deleted row at that place. */
export const restore = (doc: Y.Doc, table: TableName, place: number): void =>
  (parts(doc, table).rows.get(place) as Y.Map<unknown>).delete(DELETED);

/** Marks the table as edited, and gives it the headings that are needed. */
export function noteEdit(
  about: Y.Map<StoredForm | Uint8Array | true>,
  columns: Y.Array<[string, string]>,
  table: string,
  needs: readonly string[],
): void {
  if (about.get('edited') !== true) about.set('edited', true);
  const heads = new Set(
    columns.length === 0
      ? isTableName(table)
        ? Object.keys(schemas[table].columns)
        : []
      : columns.toArray().map(([id]) => columnCalled(table, id)),
  );
  const needed = needs.filter((heading) => {
    const column = columnCalled(table, heading);
    return !heads.has(column) && column !== ROW_ID;
  });
  if (columns.length === 0 && needed.length > 0) columns.push([...heads].map((head) => [head, head]));
  if (needed.length > 0) columns.push(needed.map((heading) => [columnCalled(table, heading), heading]));
}
