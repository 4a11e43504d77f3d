/** Where the numbers of a report come from: any number by its name, and rows as they were typed. */
import { type Campaign, type CampaignDocument, typedCells } from '@stillstand/campaign/document';
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
  { lines }: Pick<Campaign, 'lines'>,
): WhereFrom {
  const typed = typedCells(document);
  const others = new Map([...typed].map(([table, rows]) => [table, [...rows.values()]]));
  // Answers of the curve are no part of the trace: each goes through all draws.
  const known = new Map<TraceId, TraceNode | null>();
  return {
    node: (id) => {
      let node = known.get(id);
      if (node === undefined) {
        const found = trace.find(id);
        node = found === -1 ? chosenNumber(id, results) : trace.node(found);
        known.set(id, node);
      }
      return node;
    },
    typed: ({ table, row_id }) => {
      if (!isTableName(table)) return table;
      const line = lines.get(row_id);
      const cells = line === undefined ? undefined : typed.get(table)?.get(line);
      return cells === undefined ? table : `${rowAsTyped(table, cells, others.get(table)!)} (line ${line})`;
    },
  };
}
