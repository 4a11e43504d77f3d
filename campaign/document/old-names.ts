/**
 * Names of tables, columns and words of earlier versions of the document, read as those of today for ever: in a folder
 * that was written by hand, in a campaign of before, and in one that is kept on a device.
 */
import {
  type Column,
  type Columns,
  isTableName,
  plainHeading,
  plainWord,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { CampaignDocument, DocumentRow, DocumentTable } from './document.ts';

const TABLES = new Map(
  Object.entries(schemas).flatMap(([name, { was }]) =>
    was === null ? [] : [[was, name as TableName] as const],
  ),
);

const columnsOf = (table: TableName): Columns => schemas[table].columns;

/** Of each table, old column names to those of today. */
const COLUMNS = new Map<string, ReadonlyMap<string, string>>(
  Object.entries(schemas).map(([name, { columns }]) => [
    name,
    new Map(
      Object.entries<Column>(columns).flatMap(([column, { was = [] }]) =>
        was.map((old) => [old, column] as const),
      ),
    ),
  ]),
);

/** The name a table has today. */
export const tableCalled = (name: string): string => TABLES.get(name) ?? name;

/** The name a table had in version 1: what it is kept under on devices, where names are for ever. */
export const firstNameOf = (name: string): string => (isTableName(name) ? (schemas[name].was ?? name) : name);

/** Old column names of a table to those of today; empty for most. */
export const renamedColumns = (table: string): ReadonlyMap<string, string> => COLUMNS.get(table) ?? NONE;
const NONE: ReadonlyMap<string, string> = new Map();

/** The name today of a heading of that table, null where it is no old name. */
export const newColumn = (table: string, heading: string): string | null =>
  renamedColumns(table).get(plainHeading(heading)) ?? null;

/** The name a column had in version 1. */
export const firstColumn = (table: TableName, column: string): string =>
  columnsOf(table)[column]?.was?.[0] ?? column;

/** What a word of a column was in version 1. */
export function firstWord(table: TableName, column: string, word: string): string {
  const { oldWords } = columnsOf(table)[column] ?? {};
  if (oldWords === undefined) return word;
  return Object.entries(oldWords).find(([, now]) => now === word)?.[0] ?? word;
}

const known = new WeakMap<DocumentTable, DocumentTable>();

/**
 * The document with the names of today; the very object where it has no others. An old name next to its new one, where
 * that holds anything, is left as it is, and is then an unknown table or column.
 */
export function withNewNames(document: CampaignDocument): CampaignDocument {
  let isSame = true;
  const tables = new Map<string, DocumentTable>();
  for (const [name, table] of document.tables) {
    const called = tableCalled(name);
    // A new campaign has every table with no rows: one of the old name that has some is meant.
    const isTaken = (document.tables.get(called)?.rows.length ?? 0) > 0;
    const now = called === name || isTaken ? name : called;
    if (now === called && tables.has(called) && table.rows.length === 0) {
      isSame = false;
      continue;
    }
    const renamed = known.get(table) ?? withNewColumns(now, table);
    known.set(table, renamed);
    tables.set(now, renamed);
    if (now !== name || renamed !== table) isSame = false;
  }
  return isSame ? document : { ...document, tables };
}

function withNewColumns(name: string, table: DocumentTable): DocumentTable {
  if (!isTableName(name)) return table;
  const plain = table.columns.map(plainHeading);
  const says = (column: number): boolean => table.rows.some((row) => (row.cells[column] ?? '').trim() !== '');
  const columns = [...table.columns];
  for (const [i, heading] of table.columns.entries()) {
    const now = newColumn(name, heading);
    if (now === null) continue;
    const at = plain.indexOf(now);
    if (at !== -1 && says(at)) continue;
    // A column of the new name in which nothing is written gives its name up.
    if (at !== -1) columns[at] = '';
    columns[i] = now;
  }
  const rows = withNewWords(name, columns, table.rows);
  const isSame = rows === table.rows && columns.every((heading, i) => heading === table.columns[i]);
  return isSame ? table : { ...table, columns, rows };
}

/** The very rows where none says an old word. */
function withNewWords(
  name: TableName,
  columns: readonly string[],
  rows: readonly DocumentRow[],
): readonly DocumentRow[] {
  const reworded = columns.flatMap((heading, i) => {
    const { oldWords } = columnsOf(name)[plainWord(heading)] ?? {};
    return oldWords === undefined ? [] : [[i, oldWords] as const];
  });
  const isOld = ({ cells }: DocumentRow): boolean =>
    reworded.some(([i, words]) => Object.hasOwn(words, cells[i]?.trim() ?? ''));
  if (!rows.some(isOld)) return rows;
  const words = new Map(reworded);
  return rows.map((row) =>
    isOld(row) ? { ...row, cells: row.cells.map((cell, i) => words.get(i)?.[cell.trim()] ?? cell) } : row,
  );
}
