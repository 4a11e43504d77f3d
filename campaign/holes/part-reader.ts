/** A few tables of a campaign, read by the very code that reads all of it, so that a screen answers at once. */
import {
  type Campaign,
  type CampaignDocument,
  newDocument,
  parseCampaign,
  type TypedRow,
  withRows,
} from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import type { RowSource } from './row-source.ts';

/** What a row of `holes` must have to be referred to; the rest of it may be wrong without costing its readings. */
const HOLE_CELLS = ['hole', 'state', 'replaces'] as const;

/** A table without rows is a new list each time. */
export const isSame = (a: readonly object[], b: readonly object[]): boolean =>
  a === b || (a.length === 0 && b.length === 0);

/** These rows of these tables as a document, each table written as its file is. */
export function documentOf(
  source: Pick<RowSource, 'dialect'>,
  tables: Iterable<readonly [TableName, readonly TypedRow[]]>,
): CampaignDocument {
  let document = newDocument('part');
  for (const [name, rows] of tables) {
    if (rows.length === 0) continue;
    document = withRows(
      document,
      name,
      rows.map(({ row_id, cells }) => ({ ...cells, row_id })),
    );
    const dialect = source.dialect?.(name);
    if (dialect === undefined) continue;
    const table = { ...document.tables.get(name)!, dialect };
    document = { ...document, tables: new Map(document.tables).set(name, table) };
  }
  return document;
}

/**
 * `wanted` with the holes they refer to, parsed and remembered until one of them changes. Each screen keeps its own
 * reader.
 */
export function partReader(
  wanted: readonly TableName[],
): (source: RowSource) => Pick<Campaign, 'rows' | 'skipped_rows'> {
  let kept: { of: readonly (readonly TypedRow[])[]; part: Pick<Campaign, 'rows' | 'skipped_rows'> } | null =
    null;
  return (source) => {
    const of = ['holes' as const, ...wanted].map((table) => source.rows(table));
    if (kept?.of.every((rows, i) => isSame(rows, of[i]!)) === true) return kept.part;
    const holes = of[0]!.map(({ row_id, cells }): TypedRow => {
      const known = HOLE_CELLS.map((column) => [column, cells[column] ?? '']);
      return { row_id, cells: { ...Object.fromEntries(known), method: 'string' } };
    });
    const rest = wanted.map((table, i) => [table, of[i + 1]!] as const);
    const document = documentOf(source, [['holes', holes], ...rest]);
    const { campaign } = parseCampaign(document);
    kept = { of, part: { rows: campaign.rows, skipped_rows: campaign.skipped_rows } };
    return kept.part;
  };
}
