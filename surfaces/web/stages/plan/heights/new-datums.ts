/** Zeros of heights that are named before they are written down: without a row in `datums` their rows are set aside. */
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { Store } from '../../../store/index.ts';

type Cells = Readonly<Record<string, string>>;

/** Labels in the cells of a row that stand for a datum and are in none of the rows of `datums`. */
export function newDatums(table: TableName, cells: Cells, datums: readonly { cells: Cells }[]): string[] {
  const known = new Set(datums.map((row) => row.cells['datum']?.trim()));
  const named = Object.entries(schemas[table].columns).flatMap(([column, { kind, ...rest }]) =>
    kind === 'reference' && 'to' in rest && rest.to === 'datums' ? [cells[column]?.trim() ?? ''] : [],
  );
  return [...new Set(named)].filter((label) => label !== '' && !known.has(label));
}

/** Writes a row and the datums it is the first to name, local until somebody says otherwise; one step of undo. */
export function addWithDatums(
  store: Pick<Store, 'rows' | 'addRow' | 'addReading' | 'together'>,
  table: TableName,
  cells: Cells,
): void {
  store.together(() => {
    for (const datum of newDatums(table, cells, store.rows('datums'))) {
      store.addRow('datums', { datum, kind: 'local' });
    }
    if (schemas[table].readings) store.addReading(table, cells);
    else store.addRow(table, cells);
  });
}

/** Local datums that holes stand on and no step leads from or to; not the one that was chosen for the campaign. */
export function unrelatedDatums(rows: Store['rows'], chosen: string): string[] {
  const related = new Set(
    rows('datum_shifts').flatMap(({ cells }) => [cells['from']?.trim(), cells['to']?.trim()]),
  );
  const local = rows('datums').flatMap(({ cells }) =>
    cells['kind']?.trim() === 'local' ? [cells['datum']?.trim()] : [],
  );
  const used = rows('holes').map(({ cells }) => cells['reference_datum']?.trim() ?? '');
  return [...new Set(used)].filter(
    (label) => label !== chosen && local.includes(label) && !related.has(label),
  );
}
