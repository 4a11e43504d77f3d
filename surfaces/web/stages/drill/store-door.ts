/** What Drill asks of an open campaign: a part of the store, so that it can be tested without one. */
import type { TableName } from '@stillstand/campaign/tables';

export type CellsOf = Readonly<Record<string, string>>;

/** A row as typed, amended ones included. */
export interface TypedRow {
  readonly row_id: string;
  readonly cells: CellsOf;
}

export interface RowSource {
  rows(table: TableName): readonly TypedRow[];
}

export interface DrillStore extends RowSource {
  readonly readOnly: boolean;
  readonly saved: 'saved' | 'saving';
  addReading(table: TableName, cells: Record<string, string>): string;
  amend(table: TableName, row_id: string, cells: Partial<Record<string, string>>): string;
  withdraw(table: TableName, row_id: string): string;
  addRow(table: TableName, cells: Record<string, string>): string;
  editRow(table: TableName, row_id: string, patch: Record<string, string>): void;
  addFile(bytes: Uint8Array, type: string): Promise<string>;
}

export const READING_TABLES = ['ground', 'joints', 'drives', 'soundings', 'water', 'runs'] as const;
export type ReadingTable = (typeof READING_TABLES)[number];
