/** What Drill asks of an open campaign: a part of the store, so that it can be tested without one. */
import type { Dialect } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';

type CellsOf = Readonly<Record<string, string>>;

/** A row as typed, amended ones included. */
export interface TypedRow {
  readonly row_id: string;
  readonly cells: CellsOf;
}

export interface RowSource {
  rows(table: TableName): readonly TypedRow[];
  /** How a table that was read from a file is written; a decimal comma changes what its cells say. */
  dialect?(table: TableName): Dialect | undefined;
}

export interface DrillStore extends RowSource {
  readonly readOnly: boolean;
  readonly saved: 'saved' | 'saving' | 'failed';
  addReading(table: TableName, cells: CellsOf): string;
  amend(table: TableName, row_id: string, cells: CellsOf): string;
  withdraw(table: TableName, row_id: string): string;
  addRow(table: TableName, cells: CellsOf): string;
  editRow(table: TableName, row_id: string, cells: CellsOf): void;
  addFile(bytes: Uint8Array, type: string): Promise<string>;
}

export const READING_TABLES = ['ground', 'joints', 'drives', 'soundings', 'water', 'runs'] as const;
export type ReadingTable = (typeof READING_TABLES)[number];
