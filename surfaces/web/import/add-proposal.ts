/** A proposal into the campaign: interpretations as one edit that Undo takes back; readings behind those that are there. */
import type { Proposal } from '@stillstand/campaign/import';
import { schemas } from '@stillstand/campaign/tables';
import type { Store } from '../store/index.ts';

/** False where it was refused, which the store's news say; then nothing was added. */
export function addProposal(store: Store, { rows }: Proposal): boolean {
  return store.together(() => {
    for (const { table, cells } of rows) {
      if (schemas[table].readings) store.addReading(table, cells);
      else store.addRow(table, cells);
    }
  });
}

/** What Undo does with it. */
export function undoWords({ rows }: Proposal): string {
  if (rows.length === 0) return 'Nothing is added yet.';
  return rows.some(({ table }) => schemas[table].readings)
    ? 'Readings are never undone: a wrong one is withdrawn, and stays in the record.'
    : 'One Undo removes them all.';
}
