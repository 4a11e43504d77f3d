/**
 * Which rows depend on a row, in a document as typed: those that name it, so that it must not be deleted, renamed or
 * undone under them. The schemas of the tables say what names what.
 */
import {
  type Link,
  linksOf,
  namedColumns,
  namingTables,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { rowsInForce, type TypedRow, typedReadings } from './parse/typed-readings.ts';

/** The rows of each table, every amended and withdrawn reading among them. */
export type TypedTables = (table: TableName) => readonly TypedRow[];

/** A cell that names a row. */
export interface RowRef {
  readonly table: TableName;
  readonly row_id: string;
  readonly column: string;
}

const TABLES = Object.keys(schemas) as TableName[];

const text = ({ cells }: TypedRow, column: string): string => cells[column]?.trim().normalize('NFC') ?? '';
const SEPARATOR = '\u0000';

/** What the row names by a link, as a key; null where it names nothing. */
function named(row: TypedRow, { column, scope }: Link): string | null {
  const value = text(row, column);
  return value === '' ? null : [value, ...scope.map(([, here]) => text(row, here))].join(SEPARATOR);
}

/** What the row of the other table is called by such a link. */
const called = (row: TypedRow, { label, scope }: Link): string =>
  [text(row, label), ...scope.map(([there]) => text(row, there))].join(SEPARATOR);

/** Cells that name this row and no other of its table. Empty for a row that is not there. */
export function dependents(tables: TypedTables, table: TableName, row_id: string): RowRef[] {
  if (namedColumns(table).size === 0) return [];
  const row = tables(table).find((each) => each.row_id === row_id);
  if (row === undefined) return [];
  const others = carriers(tables, table).filter((each) => each.row_id !== row_id);
  const alone = new Map<string, boolean>();
  const isAlone = (link: Link): boolean => {
    const key = `${link.label}${SEPARATOR}${called(row, link)}`;
    if (!alone.has(key)) alone.set(key, !others.some((other) => called(other, link) === called(row, link)));
    return alone.get(key)!;
  };
  const found: RowRef[] = [];
  for (const from of namingTables(table)) {
    for (const each of referring(tables, from, table)) {
      if (from === table && each.row_id === row_id) continue;
      for (const link of linksOf(from, (column) => text(each, column))) {
        if (link.to !== table || named(each, link) !== called(row, link) || !isAlone(link)) continue;
        found.push({ table: from, row_id: each.row_id, column: link.column });
      }
    }
  }
  return found;
}

/** Rows of a table that can be named: of readings those in force, and all that a conflict may come to. */
function carriers(tables: TypedTables, table: TableName): readonly TypedRow[] {
  const rows = tables(table);
  if (!schemas[table].readings) return rows;
  return typedReadings(table, rows).all.flatMap(({ first, state, now, between }) =>
    state === 'conflict' ? [first, ...between.filter((row) => row !== null)] : (now ?? []),
  );
}

/**
 * Rows that name others. What a reading named once it names for good: amended or withdrawn it stays in the record, and
 * may be restored. Only what readings name among readings follows the one in force, as a piece its run.
 */
function referring(tables: TypedTables, from: TableName, to: TableName): readonly TypedRow[] {
  return schemas[from].readings && schemas[to].readings ? carriers(tables, from) : tables(from);
}

/** A cell in force that should name a row and names none. */
export interface Unresolved extends RowRef {
  readonly to: TableName;
}

/** Every such cell of rows that are no readings, and of readings in force; or of the rows of these identities only. */
export function unresolved(tables: TypedTables, among: ReadonlySet<string> | null = null): Unresolved[] {
  const calledBy = new Map<string, ReadonlySet<string>>();
  const names = (link: Link): ReadonlySet<string> => {
    const key = [link.to, link.label, ...link.scope.map(([there]) => there)].join(SEPARATOR);
    let known = calledBy.get(key);
    if (known === undefined) {
      known = new Set(carriers(tables, link.to).map((row) => called(row, link)));
      calledBy.set(key, known);
    }
    return known;
  };
  return TABLES.flatMap((table) =>
    (schemas[table].readings ? rowsInForce(table, tables(table)) : tables(table)).flatMap((row) =>
      among !== null && !among.has(row.row_id)
        ? []
        : linksOf(table, (column) => text(row, column)).flatMap((link): Unresolved[] => {
            const key = link.firm ? named(row, link) : null;
            return key === null || names(link).has(key)
              ? []
              : [{ table, row_id: row.row_id, column: link.column, to: link.to }];
          }),
    ),
  );
}
