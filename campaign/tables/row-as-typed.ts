/** A row in words, its cells as they were typed: "sounding of T2 at 10:42: depth to sediment 9.80 m, purpose before run". */
import { choiceName, columnName } from './column-name.ts';
import { placeName } from './row-name.ts';
import { schemas, type TableName } from './schemas.ts';

/** Who, when and what for: said by the place of the row, or of no weight for a number. */
const HIDDEN: ReadonlySet<string> = new Set([
  'row_id',
  'hole',
  'by',
  'device',
  'note',
  'amends',
  'amend_kind',
  'time',
  'seq',
]);

type Cells = Readonly<Record<string, string>>;

/** `others`: the rows of its table, which the name of its place must tell it from. */
export function rowAsTyped(table: TableName, cells: Cells, others: readonly Cells[]): string {
  const described: Readonly<Record<string, { kind: string }>> = schemas[table].columns;
  const typed = Object.keys(described).flatMap((column) => {
    const cell = cells[column] ?? '';
    if (cell === '' || HIDDEN.has(column)) return [];
    return [`${columnName(table, column)} ${described[column]!.kind === 'choice' ? choiceName(cell) : cell}`];
  });
  return `${placeName(table, cells, others)}: ${typed.join(', ')}`;
}
