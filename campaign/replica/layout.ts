/**
 * How a campaign's document lies in a Yjs document, without loss both ways. Everything people typed is in it: cells,
 * headings, unknown columns and tables, and the package; the bytes that were read stay with it until a table is edited,
 * so that what nobody touched is written back as the very bytes it came from. Photos and other files are kept apart.
 *
 * Readings are plain values in a list that only grows. Rows of other tables are maps: what was read, and over it each
 * edited cell by its column, so that two devices may edit two cells of one row. A deleted row stays, marked with what it
 * said then: it can be restored in its place and under its identity, by as many devices as find that it is needed, and
 * an edit made elsewhere at the same time is not lost with it. Cells that a newer version of the document says otherwise
 * lie between the two, by row (`migrate.ts`). No row is ever deleted and put in again: on two devices it would stand twice.
 */
import { type Dialect, firstNameOf, newColumn, tableCalled } from '@stillstand/campaign/document';
import { isTableName, plainHeading, schemas } from '@stillstand/campaign/tables';
import * as Y from 'yjs';

/** A row as it was read, or, for a reading, as it was entered: `r` by column. Plain values only. */
export interface StoredRow {
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
export interface StoredForm {
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

export const ROW_ID = 'row_id';
/** In front of a column's name where a row map holds an edited cell. */
export const CELL = '=';
/** In front of a column and what stood in it, where rows may be named by it: `~hole=H3`. */
export const FORMER = '~';
/** What the row said when it was deleted; a row that says something else now was edited since, and is there. */
export const DELETED = 'deleted';

export const PLAIN: Dialect = {
  delimiter: ',',
  line_end: '\n',
  bom: false,
  decimal_comma: false,
  sep_line: false,
};

/** True for append-only tables. Tables we do not know are never edited, and count as such. */
export const isReadings = (table: string): boolean => !isTableName(table) || schemas[table].readings;

/** The shared types of one table; the same names in every copy of the document, so that copies merge. */
export function parts(doc: Y.Doc, called: string) {
  // A table keeps the name it was first kept under: under a new one its rows would have to be put in again.
  const table = firstNameOf(called);
  return {
    rows: doc.getArray<StoredRow | Y.Map<unknown>>(`rows:${table}`),
    /** Headings: id (its name, unless that is empty or stands twice) and name. */
    columns: doc.getArray<[string, string]>(`columns:${table}`),
    /** `form`: StoredForm; `bytes`: the file as read; `edited`: true once any cell changed. */
    about: doc.getMap<StoredForm | Uint8Array | true>(`about:${table}`),
    /** Cells that a newer version of the document says otherwise, by the row's identity and by column. */
    migrated: doc.getMap<Readonly<Record<string, string>>>(`migrated:${table}`),
  };
}

/** The column of ours that a heading means; else its own words. Headings and columns as they are kept both mean one. */
export function columnCalled(table: string, heading: string): string {
  const plain = plainHeading(heading);
  if (isTableName(table) && Object.hasOwn(schemas[table].columns, plain)) return plain;
  return newColumn(table, heading) ?? heading;
}

/** Version of this way of keeping a document; a campaign kept by a newer one is not opened. */
export const LAYOUT = 1;

/** False where a newer Stillstand keeps the campaign in a way this one does not know. */
export const isKnownLayout = (doc: Y.Doc): boolean => Number(whole(doc).get('layout') ?? LAYOUT) <= LAYOUT;

/** The campaign as a whole: `layout`, `package` (JSON), `package_bytes` as read, `tables` (names in order). */
export const whole = (doc: Y.Doc): Y.Map<string | number | Uint8Array | string[]> => doc.getMap('campaign');

/** Names of the tables the document has, in the order of the package, then those begun here. */
export function tableNames(doc: Y.Doc): string[] {
  const listed = ((whole(doc).get('tables') as string[] | undefined) ?? []).map(tableCalled);
  const begun = Object.keys(schemas).filter(
    (name) =>
      !listed.includes(name) &&
      parts(doc, name)
        .rows.toArray()
        .some((row) => !isDeleted(row)),
  );
  return [...listed, ...begun];
}

export const isDeleted = (stored: StoredRow | Y.Map<unknown>): boolean =>
  stored instanceof Y.Map && stored.has(DELETED) && stored.get(DELETED) === said(stored);

/** All that a row says, in an order that does not depend on who wrote it when. */
export const said = (map: Y.Map<unknown>): string =>
  JSON.stringify(
    [...map.entries()]
      .filter(([key]) => key !== DELETED && !key.startsWith(FORMER))
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
