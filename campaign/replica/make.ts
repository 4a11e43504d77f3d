/** Changes made in the Yjs document in one transaction, and the act written down in it. Nothing is looked at or refused. */
import type { TableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';
import { type Acts, type How, note } from './acts.ts';
import type { Change } from './changes.ts';
import { isReadings } from './layout.ts';
import type { Writer } from './new-reading.ts';
import { type Places, placesIn } from './places.ts';
import type { TableRead } from './read.ts';
import { append, edit, remove, restore } from './write.ts';

export interface MadeIn {
  doc: Y.Doc;
  /** The history of `doc`. */
  acts: Pick<Acts, 'last'>;
  read(table: TableName): TableRead | null;
  /** The table is read again when it is asked for next. */
  forget(table: TableName): void;
  writer: Writer;
}

/** `origin` is that of the transaction. Rows that are edited or deleted must be there. */
export function make(
  { doc, acts, read, forget, writer }: MadeIn,
  changes: readonly Change[],
  how: How,
  origin: unknown = null,
): void {
  const tables = new Map<TableName, { places: Places; added: Readonly<Record<string, string>>[] }>();
  const write = (table: TableName, added: Readonly<Record<string, string>>[]): void => {
    if (added.length > 0) append(doc, table, added.splice(0));
  };
  const makeOne = (change: Change): void => {
    const { table, row_id } = change;
    const own = tables.get(table) ?? { places: placesIn(read(table)), added: [] };
    tables.set(table, own);
    const { places, added } = own;
    const deleted = change.kind === 'add' && !isReadings(table) ? places.ofDeleted(row_id) : null;
    if (change.kind === 'add' && deleted === null) {
      added.push({ ...change.cells, row_id });
      places.appended(row_id);
      return;
    }
    write(table, added);
    if (change.kind === 'edit') edit(doc, table, places.of(row_id), change.after, change.before);
    else if (change.kind === 'delete') {
      remove(doc, table, places.of(row_id));
      places.deleted(row_id);
    } else {
      restore(doc, table, deleted!);
      places.restored(row_id);
    }
  };
  doc.transact(() => {
    for (const change of changes) makeOne(change);
    for (const [table, { added }] of tables) {
      write(table, added);
      forget(table);
    }
    note(doc, acts, changes, how, writer);
  }, origin);
}
