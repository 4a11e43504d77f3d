/** Where the numbers of a report come from: any number by its name, and rows as they were typed. */
import { type Campaign, type CampaignDocument, typedRows } from '@stillstand/campaign/document';
import type { Results, TraceId, TraceNode } from '@stillstand/campaign/results';
import { chosenNumber, type Trace } from '@stillstand/campaign/steps';
import { isTableName, rowAsTyped } from '@stillstand/campaign/tables';

export interface WhereFrom {
  /** Null for a name that no number has. */
  node(id: TraceId): TraceNode | null;
  /** The cells of a row as they were typed. */
  typed(row: NonNullable<TraceNode['row']>): string;
}

/** `results` and `trace` of one computation of the campaign that `document` was parsed to. */
export function whereFrom(
  { results, trace }: { results: Results; trace: Trace },
  document: CampaignDocument,
  campaign: Pick<Campaign, 'lines'>,
): WhereFrom {
  const rows = typedRows(document, campaign);
  return {
    node: (id) => {
      const found = trace.find(id);
      return found === -1 ? chosenNumber(id, results) : trace.node(found);
    },
    typed: ({ table, row_id }) => {
      const row = rows.row(table, row_id);
      if (row === null || !isTableName(table)) return table;
      return `${rowAsTyped(table, row.cells, rows.all(table))} (line ${row.line})`;
    },
  };
}
