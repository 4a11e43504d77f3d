/**
 * The document of a campaign: what people typed, and nothing else. Cells are strings; columns, tables, files and
 * package members we do not know are kept. It never changes in place: an edit makes a new document, and a part that
 * is still the very object that was read is written back as the very bytes it came from.
 */

export type Json = string | number | boolean | null | readonly Json[] | JsonObject;
export interface JsonObject {
  readonly [member: string]: Json;
}

/** Whether a part of a package is an object; anybody may have written the package, and put anything anywhere. */
export const isJsonObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** How a table is written down. */
export interface Dialect {
  delimiter: ',' | ';' | '\t';
  line_end: '\n' | '\r\n' | '\r';
  /** A byte-order mark stands in front. */
  bom: boolean;
  /** Numbers are written 3,05 for 3.05. */
  decimal_comma: boolean;
  /** A first line "sep=;" tells spreadsheets the delimiter. */
  sep_line: boolean;
}

export interface DocumentRow {
  /** As typed; fewer or more than there are columns where the file has it so. */
  readonly cells: readonly string[];
  /** As a spreadsheet numbers it, the first line of the file being 1. */
  readonly line: number;
  /** Text stood behind a closing quotation mark, so that cells may have run into each other. */
  readonly stray_quote?: true;
}

/** Headings and rows; rows in which nothing stands are left out. */
export interface Cells {
  readonly columns: readonly string[];
  readonly rows: readonly DocumentRow[];
  readonly dialect: Dialect;
}

export interface DocumentTable extends Cells {
  /** File it is kept in, from the campaign folder, with `/`. */
  readonly path: string;
  /** What was read: bytes that are written back as long as the cells are the same objects; null for a new table. */
  readonly source: (Cells & { readonly bytes: Uint8Array }) | null;
}

export interface CampaignDocument {
  /** `datapackage.json` parsed; null where there is none or it cannot be read. */
  readonly package: JsonObject | null;
  /** Tables by name, in the order of the package. */
  readonly tables: ReadonlyMap<string, DocumentTable>;
  /** Everything else (photos, notes, what we do not know), by path. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** `datapackage.json` as it was read; null where there was none. */
  readonly source: { readonly package: JsonObject | null; readonly bytes: Uint8Array } | null;
  /** Tables that are there and could not be read, by name, with their path; the problems of reading say why. */
  readonly unread?: ReadonlyMap<string, string>;
}

export const PACKAGE_PATH = 'datapackage.json';

/** Where a saved campaign has its history (`campaign/history`), next to its tables; to the document a file as any other. */
export const HISTORY_PATH = 'history.yjs';

/** Version of the document this program writes, in `datapackage.json` as `stillstand.version`. */
export const DOCUMENT_VERSION = 2;

export const PLAIN_DIALECT: Dialect = {
  delimiter: ',',
  line_end: '\n',
  bom: false,
  decimal_comma: false,
  sep_line: false,
};

/** The rows of a table by column, as `withRows` takes them; none where the document has no such table. */
export function rowsOf(document: CampaignDocument, table: string): Record<string, string>[] {
  const { columns = [], rows = [] } = document.tables.get(table) ?? {};
  return rows.map(({ cells }) => Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? ''])));
}

/**
 * The document with the rows of one table replaced. Cells go by column name; names the table does not have become new
 * columns behind the others. Lines count from the heading.
 */
export function withRows(
  document: CampaignDocument,
  table: string,
  rows: readonly Readonly<Record<string, string>>[],
): CampaignDocument {
  const before = document.tables.get(table);
  const columns = new Set(before?.columns);
  for (const row of rows) for (const column of Object.keys(row)) columns.add(column);
  const names = [...columns];
  const edited: DocumentTable = {
    path: before?.path ?? `${table}.csv`,
    columns: names,
    rows: rows.map((row, i) => ({ cells: names.map((column) => row[column] ?? ''), line: i + 2 })),
    dialect: before?.dialect ?? PLAIN_DIALECT,
    source: before?.source ?? null,
  };
  return { ...document, tables: new Map(document.tables).set(table, edited) };
}
