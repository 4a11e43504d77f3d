/** The cells of a document as they were typed, by line and by the column they are read as. */
import { isTableName, plainHeading, type TableName } from '@stillstand/campaign/tables';
import type { CampaignDocument } from './document.ts';
import { withNewNames } from './old-names.ts';

export type TypedCells = Readonly<Record<string, string>>;

/** Of every table that is known, under the names of today; columns without a heading are left out. */
export function typedCells(document: CampaignDocument): Map<TableName, ReadonlyMap<number, TypedCells>> {
  return new Map(
    [...withNewNames(document).tables].flatMap(([name, { columns, rows }]) => {
      if (!isTableName(name)) return [];
      const headings = columns.map(plainHeading);
      const cellsOf = (cells: readonly string[]): TypedCells =>
        Object.fromEntries(
          headings.flatMap((heading, i) => (heading === '' ? [] : [[heading, cells[i] ?? ''] as const])),
        );
      return [[name, new Map(rows.map(({ line, cells }) => [line, cellsOf(cells)]))] as const];
    }),
  );
}
