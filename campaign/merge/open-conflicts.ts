/** Conflicts that are still open in one campaign, and their end. */
import type { editing } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { chosenRow } from './amendment-conflicts.ts';
import { chosenValue } from './cell-conflicts.ts';
import { copyOf } from './copy.ts';
import { conflictsOf } from './plan.ts';
import type { MergeConflict } from './shape.ts';

/** In the words in which a merge asks about them; whose a side was is not known any more. */
export function openConflicts(doc: Y.Doc): MergeConflict[] {
  const nothing = copyOf(new Y.Doc());
  return conflictsOf({ ours: nothing, theirs: nothing, merged: copyOf(doc) });
}

/** False where it was refused; `choice` is the key of one of its choices, and not `later`. */
export function endConflict(
  edits: Pick<ReturnType<typeof editing>, 'decide' | 'settle'>,
  { kind, table, row_id, column }: MergeConflict,
  choice: string,
): boolean {
  if (kind === 'amendment') return edits.decide(table, row_id, chosenRow(choice)) !== null;
  return edits.settle(table, row_id, column, chosenValue(choice));
}
