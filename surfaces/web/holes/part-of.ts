/** A few tables of the open campaign, read by the very code that reads all of it, so that a screen answers at once. */
import {
  type Campaign,
  type Dialect,
  newDocument,
  parseCampaign,
  withRows,
} from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import type { Store } from '../store/index.ts';

export interface TypedRows {
  rows(
    table: TableName,
  ): readonly { readonly row_id: string; readonly cells: Readonly<Record<string, string>> }[];
  /** How a table that was read from a file is written. */
  dialect?(table: TableName): Dialect | undefined;
}

/** The store as it is typed, each table with the way its file writes numbers. */
export const asTyped = (store: Pick<Store, 'rows' | 'document'>): TypedRows => ({
  rows: store.rows,
  dialect: (table) => store.document().tables.get(table)?.dialect,
});

/** What a row of `holes` must have to be referred to; the rest of it may be wrong without costing its readings. */
const HOLE_CELLS = ['hole', 'state', 'replaces'] as const;

const isSame = (a: readonly object[], b: readonly object[]): boolean =>
  a === b || (a.length === 0 && b.length === 0);

/**
 * `wanted` with the holes they refer to, parsed and remembered until one of them changes. Each screen keeps its own
 * reader.
 */
export function partReader(
  wanted: readonly TableName[],
): (source: TypedRows) => Pick<Campaign, 'rows' | 'aside'> {
  let kept: { of: readonly (readonly object[])[]; part: Pick<Campaign, 'rows' | 'aside'> } | null = null;
  return (source) => {
    const of = ['holes' as const, ...wanted].map((table) => source.rows(table));
    if (kept?.of.every((rows, i) => isSame(rows, of[i]!)) === true) return kept.part;
    const holes = source.rows('holes').map(({ row_id, cells }) => ({
      ...Object.fromEntries(HOLE_CELLS.map((column) => [column, cells[column] ?? ''])),
      method: 'string',
      row_id,
    }));
    let document = withRows(newDocument('part'), 'holes', holes);
    for (const table of wanted) {
      const rows = source.rows(table);
      if (rows.length === 0) continue;
      document = withRows(
        document,
        table,
        rows.map(({ row_id, cells }) => ({ ...cells, row_id })),
      );
      const dialect = source.dialect?.(table);
      const read = document.tables.get(table)!;
      if (dialect !== undefined)
        document = { ...document, tables: new Map(document.tables).set(table, { ...read, dialect }) };
    }
    const { campaign } = parseCampaign(document);
    kept = { of, part: { rows: campaign.rows, aside: campaign.aside } };
    return kept.part;
  };
}
