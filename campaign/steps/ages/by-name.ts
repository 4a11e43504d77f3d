/** What the rows of one name in a table make together, as those of a curve. */
import type { Campaign } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';

export interface ByName<T> {
  /** By name; what cannot be used is left out. */
  of: ReadonlyMap<string, T>;
  /** Names of what cannot be used. */
  faulty: ReadonlySet<string>;
}

/**
 * All of a name is left out where one of its rows is wrong, so that `make` gives null, or was set aside: a gap would be
 * bridged unseen. `column` holds the name.
 */
export function byName<Table extends TableName, T>(
  { rows, skipped_rows }: Campaign,
  table: Table,
  column: string & keyof Campaign['rows'][Table][number],
  make: (name: string, rows: readonly Campaign['rows'][Table][number][]) => T | null,
): ByName<T> {
  const of = new Map<string, T>();
  // What is wrong with a row that is set aside has been said of it.
  const faulty = new Set(
    skipped_rows.flatMap(({ table: from, agreed }) => {
      const name = from === table ? agreed?.[column] : null;
      return typeof name === 'string' ? [name] : [];
    }),
  );
  const all: readonly Campaign['rows'][Table][number][] = rows[table];
  for (const [name, ofName] of Map.groupBy(all, (row) => String(row[column]))) {
    const made = make(name, ofName);
    if (made === null) faulty.add(name);
    else if (!faulty.has(name)) of.set(name, made);
  }
  return { of, faulty };
}
