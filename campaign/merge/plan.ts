/** What a merge would do, before anything is written. */
import { amendmentConflicts } from './amendment-conflicts.ts';
import { cellConflicts } from './cell-conflicts.ts';
import { copyOf, haveHistoryInCommon, holdTheSame, joined } from './copy.ts';
import { countsBetween, sameRows } from './counts.ts';
import type { Meeting } from './meeting.ts';
import { filesBetween } from './photos.ts';
import type { MergeConflict, MergePlan, MergeSide } from './shape.ts';
import { strandsOf } from './strands.ts';

export function planMerge(ours: MergeSide, theirs: MergeSide): MergePlan {
  const meeting = meetingOf(ours, theirs);
  const conflicts = conflictsOf(meeting);
  const { merged } = meeting;
  const [isNewHere, isNewThere] = [!holdTheSame(merged.doc, ours.doc), !holdTheSame(merged.doc, theirs.doc)];
  return {
    relation: isNewHere ? (isNewThere ? 'both changed' : 'theirs ahead') : isNewThere ? 'ours ahead' : 'same',
    by: haveHistoryInCommon(ours.doc, theirs.doc) ? 'history' : 'rows',
    ...strandsOf(meeting.ours, meeting.theirs, merged),
    came: countsBetween(meeting.ours, merged),
    only_here: countsBetween(meeting.theirs, merged),
    same_rows: sameRows(meeting.ours, meeting.theirs),
    different: new Set(conflicts.map(({ table, row_id }) => `${table} ${row_id}`)).size,
    conflicts,
    notes: [],
    files: filesBetween(ours, theirs, merged),
  };
}

export const meetingOf = (ours: MergeSide, theirs: MergeSide): Meeting => ({
  ours: copyOf(ours.doc),
  theirs: copyOf(theirs.doc),
  merged: copyOf(joined(ours.doc, theirs.doc)),
});

export const conflictsOf = (meeting: Meeting): MergeConflict[] => [
  ...amendmentConflicts(meeting),
  ...cellConflicts(meeting),
];
