/** A row on its way from their line to ours. */
import type { Fault, TableName } from '@stillstand/campaign/tables';
import type { Given } from './given.ts';

export interface Draft {
  table: TableName;
  line: number;
  cells: Record<string, string>;
  notes: string[];
  /** By heading of theirs, or column of ours; each keeps the row from being used. */
  faults: { column: string; fault: Fault }[];
  /** Columns of ours that something was said for, read or not: they are not missing. */
  tried: Set<string>;
  given: Given;
}

export const draftOf = (table: TableName, given: Given): Draft => ({
  table,
  line: given.line,
  cells: {},
  notes: [],
  faults: [],
  tried: new Set(),
  given,
});

/** What the rows of a line are, or why it has none. */
export type FromLine = { drafts: Draft[] } | { aside: string };
