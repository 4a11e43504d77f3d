/**
 * Sites, kinds of pipe and datums that a row is the first to name: they are written down with it, for without a row of
 * their own its cell would be an error and the hole without its site, pipe or zero.
 */
import { type Column, labelColumn, nearest, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Store } from '../../store/index.ts';

type Cells = Readonly<Record<string, string>>;

/** What is made so, what else it is until somebody says more, and how it is said. */
const MADE = {
  sites: { cells: {}, words: (label: string) => `Site ${label} is new: it is added under Sites.` },
  pipes: {
    cells: {},
    words: (label: string) => `Pipe ${label} is new: it is added under Pipe. State its mass and loss there.`,
  },
  datums: {
    cells: { kind: 'local' },
    words: (label: string) =>
      `Datum ${label} is new: it is added as a local zero. State its shift to the other datums.`,
  },
} as const;
type MadeTable = keyof typeof MADE;
const isMade = (table: string): table is MadeTable => Object.hasOwn(MADE, table);

export interface NewRow {
  table: MadeTable;
  label: string;
  /** A label there is that reads nearly so; null for none. */
  like: string | null;
}

/** The rows that these rows of one table name and that are not there yet, each once. */
export function newRows(table: TableName, rows: readonly Cells[], there: Store['rows']): NewRow[] {
  const columns = Object.entries<Column>(schemas[table].columns).flatMap(([column, known]) =>
    known.kind === 'reference' && isMade(known.to) ? [{ column, to: known.to }] : [],
  );
  const found = new Map<string, NewRow>();
  for (const cells of rows)
    for (const { column, to } of columns) {
      const label = cells[column]?.trim() ?? '';
      if (label === '' || found.has(`${to} ${label}`)) continue;
      const known = there(to).map((row) => row.cells[labelColumn(to)!]?.trim() ?? '');
      if (known.includes(label)) continue;
      found.set(`${to} ${label}`, { table: to, label, like: nearest(label, known.filter(Boolean)) });
    }
  return [...found.values()];
}

/** What is said before it is written, a sentence each. */
export const newRowWords = ({ table, label, like }: NewRow): string =>
  `${MADE[table].words(label)}${like === null ? '' : ` Or is it ${like}?`}`;

/** Writes rows and the sites, kinds of pipe and datums they are the first to name: all of them or none, one step of undo. */
export function addWithNamed(
  store: Pick<Store, 'rows' | 'addRow' | 'addReading' | 'together'>,
  table: TableName,
  rows: readonly Cells[],
): boolean {
  return store.together(() => {
    addNamed(store, newRows(table, rows, store.rows));
    for (const cells of rows) {
      if (schemas[table].readings) store.addReading(table, cells);
      else store.addRow(table, cells);
    }
  });
}

export function addNamed(store: Pick<Store, 'addRow'>, named: readonly NewRow[]): void {
  for (const { table, label } of named)
    store.addRow(table, { [labelColumn(table)!]: label, ...MADE[table].cells });
}
