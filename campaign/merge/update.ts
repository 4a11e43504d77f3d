/** The merge as one change of the copy here. */
import { actsOf, editing, reader, type Writer } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { chosenRow } from './amendment-conflicts.ts';
import { chosenValue } from './cell-conflicts.ts';
import { LATER } from './meeting.ts';
import { conflictsOf, meetingOf } from './plan.ts';
import type { Decisions, MergeSide } from './shape.ts';

/**
 * A Yjs update (format v1) for `ours`: all that the copy has and this has not, what is put right where the two met, and the
 * decisions, each as an act of `writer`. A decision that names no conflict of the two is passed over.
 */
export function mergedUpdate(
  ours: MergeSide,
  theirs: MergeSide,
  decisions: Decisions,
  writer: Writer,
): Uint8Array {
  const meeting = meetingOf(ours, theirs);
  const { doc } = meeting.merged;
  const conflicts = conflictsOf(meeting);
  const { read, forget } = reader(doc);
  const edits = editing({
    doc,
    acts: actsOf(doc),
    read,
    forget,
    demandWritable: () => undefined,
    tell: () => undefined,
    writer,
  });
  edits.repaired(null);
  for (const { key, kind, table, row_id, column, choices } of conflicts) {
    const choice = decisions.get(key) ?? LATER.key;
    if (choice === LATER.key || !choices.some((each) => each.key === choice)) continue;
    if (kind === 'amendment') edits.decide(table, row_id, chosenRow(choice));
    if (kind === 'cell') edits.settle(table, row_id, column, chosenValue(choice));
  }
  return Y.encodeStateAsUpdate(doc, Y.encodeStateVector(ours.doc));
}
