/** A proposal into the campaign: interpretations as one edit that Undo takes back; readings behind those that are there. */
import type { Proposal, ProposedRow } from '@stillstand/campaign/import';
import { schemas } from '@stillstand/campaign/tables';
import type { Store } from '../store/index.ts';

/** False where it was refused, which the store's news say; then nothing was added. */
export function addProposal(store: Store, { rows }: Proposal): boolean {
  const [readings, others] = [rows.filter(isReading), rows.filter((row) => !isReading(row))];
  // A reading is never refused nor undone: it is written once what it names is there.
  const isThere = store.together(() => {
    for (const { table, cells } of others) store.addRow(table, cells);
  });
  if (isThere) for (const { table, cells } of readings) store.addReading(table, cells);
  return isThere;
}

const isReading = ({ table }: ProposedRow): boolean => schemas[table].readings;

/** What Undo does with it. */
export function undoWords({ rows }: Proposal): string {
  if (rows.length === 0) return 'Nothing is added yet.';
  return rows.some(isReading)
    ? 'Readings are never undone: a wrong one is withdrawn, and stays in the record.'
    : 'One Undo removes them all.';
}
