/** The rows of a document by their ids, each cell as it was typed. */
import type { CampaignDocument, DocumentTable } from './document.ts';
import { withNewNames } from './old-names.ts';
import type { Campaign } from './parse/campaign.ts';

export interface TypedCells {
  line: number;
  /** By column. */
  cells: Readonly<Record<string, string>>;
}

/** Rows are found by the lines they were parsed at, since a row may have no id of its own. */
export function typedRows(
  document: CampaignDocument,
  { lines }: Pick<Campaign, 'lines'>,
): {
  row: (table: string, row_id: string) => TypedCells | null;
  all: (table: string) => readonly TypedCells['cells'][];
} {
  const { tables } = withNewNames(document);
  const known = new Map<string, Map<number, TypedCells['cells']>>();
  const of = (name: string): Map<number, TypedCells['cells']> => {
    const table = tables.get(name);
    const rows = known.get(name) ?? new Map(table?.rows.map((row) => [row.line, cellsOf(table, row)]));
    known.set(name, rows);
    return rows;
  };
  return {
    row: (table, row_id) => {
      const line = lines.get(row_id);
      const cells = line === undefined ? undefined : of(table).get(line);
      return cells === undefined || line === undefined ? null : { line, cells };
    },
    all: (table) => [...of(table).values()],
  };
}

const cellsOf = (table: DocumentTable, { cells }: DocumentTable['rows'][number]): TypedCells['cells'] =>
  Object.fromEntries(table.columns.map((column, i) => [column, cells[i] ?? '']));
