/** Rows as they were typed, wherever they are kept: in a replica, in a file, in memory. */
import {
  type CampaignDocument,
  compareReadings,
  type Dialect,
  rowIds,
  rowsInForce,
  type TypedRow,
  typedSeq,
} from '@stillstand/campaign/document';
import { plainHeading, schemas, type TableName } from '@stillstand/campaign/tables';

export interface RowSource {
  /** Every row of the table in its order, amended and withdrawn readings too; the same list until one changes. */
  rows(table: TableName): readonly TypedRow[];
  /** How a table that was read from a file is written; a decimal comma changes what its cells say. */
  dialect?(table: TableName): Dialect | undefined;
}

/** The rows of a document, cells by column; capitals, spaces and hyphens of a heading do not matter. */
export function rowsOfDocument(document: CampaignDocument): Required<RowSource> {
  const ids = rowIds(document);
  const tables = new Map<TableName, readonly TypedRow[]>();
  return {
    rows: (name) => {
      const known = tables.get(name);
      if (known !== undefined) return known;
      const { columns = [], rows = [] } = document.tables.get(name) ?? {};
      const described: Readonly<Record<string, unknown>> = schemas[name].columns;
      const headings = columns.map((column) =>
        Object.hasOwn(described, plainHeading(column)) ? plainHeading(column) : column,
      );
      const read = rows.flatMap(({ cells, line }): TypedRow[] => {
        const row_id = ids.get(name)?.get(line);
        const typed = Object.fromEntries(headings.map((heading, i) => [heading, cells[i] ?? '']));
        return row_id === undefined ? [] : [{ row_id, cells: typed }];
      });
      tables.set(name, read);
      return read;
    },
    dialect: (name) => document.tables.get(name)?.dialect,
  };
}

/** Rows of a hole in force; those whose amendments differ are not among them. */
export const inForceOf = (source: RowSource, table: TableName, hole: string): TypedRow[] =>
  rowsInForce(table, source.rows(table)).filter((row) => row.cells['hole']?.trim() === hole);

/** The same in the order of the readings. */
export const inOrderOf = (source: RowSource, table: TableName, hole: string): TypedRow[] =>
  inForceOf(source, table, hole)
    .map((row) => {
      const { row_id, cells } = row;
      return { row, table, row_id, seq: typedSeq(row) ?? 0, time: cells['time'] ?? null };
    })
    .sort(compareReadings)
    .map(({ row }) => row);

/** What was last typed in a column for a hole; empty where nothing was. */
export const lastTyped = (source: RowSource, table: TableName, hole: string, column: string): string =>
  source.rows(table).findLast((r) => r.cells['hole'] === hole && (r.cells[column] ?? '') !== '')?.cells[
    column
  ] ?? '';
