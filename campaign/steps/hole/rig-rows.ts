/** The rig's readings of one hole as the steps take them: each known to the trace. */
import type { Campaign } from '@stillstand/campaign/document';
import { type RigEntry, rigEntries } from '@stillstand/campaign/holes';
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
