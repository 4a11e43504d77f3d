/** What changed in the tables of a campaign: rows by their identity, cells as they were typed. */
import {
  type CampaignDocument,
  rowIds,
  type TypedTables,
  typedCells,
  withNewNames,
  withRows,
} from '@stillstand/campaign/document';
import { columnName, rowName, schemas, type TableName } from '@stillstand/campaign/tables';

export interface CellChange {
  column: string;
  /** The column in words. */
  called: string;
  old: string;
  now: string;
}

export interface RowChange {
  table: TableName;
  row_id: string;
  /** "date INV-2", "sounding at 10:42 of T2". */
  name: string;
  change: 'added' | 'removed' | 'changed';
  /** Of a row that was added or removed all its cells. */
  cells: readonly CellChange[];
}

type Row = Readonly<Record<string, string>>;
type Rows = ReadonlyMap<string, Row>;

const TABLES = Object.keys(schemas) as TableName[];

/** In the order of the tables; within one first what the new document has, in its order, then what is gone. */
export function rowChanges(old: CampaignDocument, now: CampaignDocument): RowChange[] {
  const before = rowsOf(old);
  const after = rowsOf(now);
  return TABLES.flatMap((table) => {
    const was = before.get(table) ?? new Map<string, Row>();
    const is = after.get(table) ?? new Map<string, Row>();
    const all = [...new Set([...is.keys(), ...was.keys()])];
    return all.flatMap((row_id): RowChange[] => {
      const [a, b] = [was.get(row_id) ?? null, is.get(row_id) ?? null];
      const cells = cellChanges(table, a ?? {}, b ?? {});
      if (cells.length === 0 && a !== null && b !== null) return [];
      const others = [...(b === null ? was : is).values()];
      return [
        {
          table,
          row_id,
          name: rowName(table, (b ?? a)!, others),
          change: a === null ? 'added' : b === null ? 'removed' : 'changed',
          cells,
        },
      ];
    });
  });
}

/** The document with some of the changes applied to it; `changes` are of it against another document. */
export function withChanges(document: CampaignDocument, changes: readonly RowChange[]): CampaignDocument {
  const rows = rowsOf(document);
  let edited = withNewNames(document);
  for (const [table, ofTable] of Map.groupBy(changes, (each) => each.table)) {
    const byId = new Map(rows.get(table));
    for (const { row_id, change, cells } of ofTable) {
      if (change === 'removed') byId.delete(row_id);
      else {
        const typed = Object.fromEntries(cells.map(({ column, now }) => [column, now]));
        byId.set(row_id, { row_id, ...byId.get(row_id), ...typed });
      }
    }
    // A table of its own, so that cells of both documents are read alike, whatever the files looked like.
    const tables = new Map(edited.tables);
    tables.delete(table);
    edited = withRows({ ...edited, tables }, table, [...byId.values()]);
  }
  return edited;
}

/** The rows of a document by table, as they are compared. */
export function tablesOf(document: CampaignDocument): TypedTables {
  const tables = new Map(
    [...rowsOf(document)].map(([table, rows]) => [
      table,
      [...rows].map(([row_id, cells]) => ({ row_id, cells })),
    ]),
  );
  return (table) => tables.get(table) ?? [];
}

function cellChanges(table: TableName, old: Row, now: Row): CellChange[] {
  const columns = new Set([...Object.keys(now), ...Object.keys(old)]);
  return [...columns].flatMap((column) => {
    const [a, b] = [old[column] ?? '', now[column] ?? ''];
    return column === 'row_id' || a === b
      ? []
      : [{ column, called: columnName(table, column), old: a, now: b }];
  });
}

/** By table and identity; cells without blanks around them, with decimal points. */
function rowsOf(document: CampaignDocument): Map<TableName, Rows> {
  const ids = rowIds(document);
  const { tables } = withNewNames(document);
  return new Map(
    [...typedCells(document)].map(([name, lines]) => {
      const isComma = tables.get(name)!.dialect.decimal_comma;
      const byId = [...lines].flatMap(([line, cells]): [string, Row][] => {
        const row_id = ids.get(name)?.get(line);
        if (row_id === undefined) return [];
        const typed = Object.entries(cells).map(([column, cell]) => [column, pointed(cell, isComma)]);
        return [[row_id, { ...Object.fromEntries(typed), row_id }]];
      });
      return [name, new Map(byId)];
    }),
  );
}

/** "3,05 m" of a table that writes decimal commas as "3.05 m". */
const pointed = (cell: string, isComma: boolean): string =>
  isComma ? cell.trim().replace(/^([-+−]?\d*),(\d+)(?!\d*,)/, '$1.$2') : cell.trim();
