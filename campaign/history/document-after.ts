/** The campaign as it was right after an act, in the order of the history; made of the acts alone. */
import { type CampaignDocument, withRows } from '@stillstand/campaign/document';
import { type Act, actsOf, reader } from '@stillstand/campaign/replica';
import { isTableName, type TableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';

/**
 * Null: before the first act. Rows added later are not there, rows deleted later are back; a cell says what the last act
 * until then set it to, and where none did, what stood there before the first that did.
 */
export function documentAfter(doc: Y.Doc, act: string | null): CampaignDocument {
  const acts = actsOf(doc).all();
  const known = act === null ? 0 : acts.findIndex(({ id }) => id === act) + 1;
  const changes = (of: readonly Act[]) => of.flatMap((each) => each.changes);
  const later = changes(acts.slice(known));
  const earlier = changes(acts.slice(0, known));
  const { read, document } = reader(doc);
  let then = document();
  for (const table of new Set(later.map((change) => change.table))) {
    if (!isTableName(table)) continue;
    const now = read(table);
    if (now === null) continue;
    const added = new Set(rowsOf(later, 'add', table));
    const deleted = new Set(rowsOf(later, 'delete', table));
    const all = [
      ...now.rows.map((row, i) => ({ row, place: now.places[i]! })),
      ...now.deleted.filter(({ row }) => deleted.has(row.row_id)),
    ].sort((a, b) => a.place - b.place);
    then = withRows(
      then,
      table,
      all
        .filter(({ row }) => !added.has(row.row_id))
        .map(({ row }) => {
          const cells: Record<string, string> = { ...row.cells, row_id: row.row_id };
          for (const column of columnsOf(later, table, row.row_id))
            cells[column] = cellThen(earlier, later, table, row.row_id, column);
          return cells;
        }),
    );
  }
  return then;
}

type Changes = Act['changes'];

const rowsOf = (changes: Changes, kind: 'add' | 'delete', table: TableName): string[] =>
  changes.flatMap((change) => (change.kind === kind && change.table === table ? [change.row_id] : []));

const columnsOf = (changes: Changes, table: TableName, row_id: string): string[] =>
  changes.flatMap((change) =>
    change.kind === 'edit' && change.table === table && change.row_id === row_id
      ? Object.keys(change.cells)
      : [],
  );

function cellThen(
  earlier: Changes,
  later: Changes,
  table: TableName,
  row_id: string,
  column: string,
): string {
  const cellOf = (change: Changes[number]) =>
    change.kind === 'edit' && change.table === table && change.row_id === row_id
      ? change.cells[column]
      : undefined;
  const last = earlier.findLast((change) => cellOf(change) !== undefined);
  if (last !== undefined) return cellOf(last)!.after;
  return cellOf(later.find((change) => cellOf(change) !== undefined)!)!.before;
}
