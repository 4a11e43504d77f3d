/** A comparison as two CSV tables: the numbers that changed, and the rows of the campaign that did. */
import type { CellChange, Comparison, RowChange, Unit } from '@stillstand/campaign/compare';
import { type CsvColumn, csv, noFormula } from '@stillstand/output/spreadsheet';
import { written } from '@stillstand/output/words';

/** A digit more than `ROUNDING` shows. */
const DECIMALS: Readonly<Record<Unit, number>> = { m: 4, 'mm/yr': 3, 'cal BP': 1, ratio: 4 };

type Change = Comparison['changes'][number];

const text = (heading: string, of: (row: Change) => string): CsvColumn<Change> => ({
  heading,
  cell: (row) => noFormula(of(row)),
});
const number = (heading: string, of: (row: Change) => number | null | undefined): CsvColumn<Change> => ({
  heading,
  cell: (row) => written(of(row) ?? null, DECIMALS[row.unit]),
});
const twice = (sigma: number | null | undefined): number | null => (sigma == null ? null : 2 * sigma);

/** Numbers in the order of the comparison. `rows` are numbers of lines in the other table. */
export function numbersCsv({ changes, rows }: Comparison): string {
  const lineOf = new Map(rows?.map((row, i) => [row, i + 1]));
  return csv(
    [
      text('kind', ({ kind }) => kind),
      text('number', ({ name }) => name),
      text('trace_id', ({ id }) => id),
      text('unit', ({ unit }) => unit),
      number('old', ({ old }) => old?.value),
      number('old_2sigma', ({ old }) => twice(old?.sigma)),
      number('new', ({ now }) => now?.value),
      number('new_2sigma', ({ now }) => twice(now?.sigma)),
      number('difference', ({ difference }) => difference),
      {
        heading: 'difference_over_1sigma',
        cell: ({ in_sigma }) => written(in_sigma, 3),
      },
      text('within_monte_carlo_error', ({ within_monte_carlo }) => (within_monte_carlo ? 'yes' : 'no')),
      text('old_status', ({ old }) => old?.status ?? ''),
      text('new_status', ({ now }) => now?.status ?? ''),
      text('cause', ({ cause }) => cause),
      text('rows', ({ rows: under }) => under.map((row) => lineOf.get(row)).join(' ')),
    ],
    changes,
  );
}

/** One line for each cell that changed; `row` is the number of the changed row. */
export function rowsCsv(rows: readonly RowChange[]): string {
  const cells = rows.flatMap((row, i) =>
    (row.cells.length > 0 ? row.cells : [NO_CELL]).map((cell) => ({ row, number: i + 1, cell })),
  );
  type Line = (typeof cells)[number];
  const column = (heading: string, of: (line: Line) => string): CsvColumn<Line> => ({
    heading,
    cell: (line) => noFormula(of(line)),
  });
  return csv(
    [
      column('row', ({ number: of }) => String(of)),
      column('table', ({ row }) => row.table),
      column('row_id', ({ row }) => row.row_id),
      column('name', ({ row }) => row.name),
      column('change', ({ row }) => row.change),
      column('column', ({ cell }) => cell.column),
      column('old', ({ cell }) => cell.old),
      column('new', ({ cell }) => cell.now),
    ],
    cells,
  );
}

/** Of a row in which nothing is written. */
const NO_CELL: CellChange = { column: '', called: '', old: '', now: '' };

/** A number as JSON has it: without the nodes it was looked up by, its rows by their identity. */
export const asJson = ({ below: _, key: __, rows, ...change }: Change) => ({
  ...change,
  rows: rows.map(({ table, row_id }) => ({ table, row_id })),
});
