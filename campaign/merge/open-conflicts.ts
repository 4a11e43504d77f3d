/** Conflicts that are still open in one campaign, in the words in which a merge asks about them. */
import * as Y from 'yjs';
import { amendmentConflicts } from './amendment-conflicts.ts';
import { cellConflicts } from './cell-conflicts.ts';
import { copyOf } from './copy.ts';
import { meetingOf, type Question } from './meeting.ts';
import { placeConflicts } from './order-conflicts.ts';
import { planning } from './plan.ts';

/** Whose a side was is not known any more; `decide` is given the campaign's own edits. */
export function openConflicts(doc: Y.Doc): Question[] {
  const side = { doc, files: new Map<string, number>() };
  const before = copyOf(new Y.Doc());
  const meeting = { ...meetingOf(side, side, null, planning()), ours: before, theirs: before };
  return [...amendmentConflicts(meeting), ...placeConflicts(meeting), ...cellConflicts(meeting)];
}
