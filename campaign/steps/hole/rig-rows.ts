/** The rig's readings of one hole as the steps take them: each known to the trace. */
import type { Campaign } from '@stillstand/campaign/document';
import { type RigEntry, rigEntries, stockRowOf } from '@stillstand/campaign/holes';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';

export interface RigRow extends RigEntry {
  known: Known<{ row_id: string }>;
}

/** Every rig reading of one hole, in the order of `seq`. */
export function rigRows(run: Runner, campaign: Campaign, hole: string): RigRow[] {
  return rigEntries(campaign, hole).map(({ row, ...entry }) => ({
    ...entry,
    known: run.row(entry.table, row, `${entry.name} (${entry.reading.seq})`),
  }));
}

/** Rows of the stock whose own thread loss the string of a hole uses. */
export function stockRows(run: Runner, { rows }: Campaign, hole: string): Known<{ row_id: string }>[] {
  const used = rows.string_items.flatMap((row) => {
    const stock = row.hole === hole && row.action === 'add' ? stockRowOf(rows.pipe_stock, row) : null;
    return stock?.makeup_loss_m == null ? [] : [stock];
  });
  return [...new Set(used)].map((row) =>
    run.row('pipe_stock', row, `${row.item ?? 'joint'} ${row.stock_item}`),
  );
}
