/** What a merge would do, before anything is written. */
import type { OrderClash } from '@stillstand/campaign/order';
import type { Writer } from '@stillstand/campaign/replica';
import { capital, rowName, schemas, type TableName } from '@stillstand/campaign/tables';
import { amendmentConflicts } from './amendment-conflicts.ts';
import { cellConflicts } from './cell-conflicts.ts';
import { holdTheSame } from './copy.ts';
import { countsBetween, sameRows } from './counts.ts';
import { type Meeting, meetingOf, type Question } from './meeting.ts';
import { clashesOf, movesByClock, orderConflicts, placeConflicts } from './order-conflicts.ts';
import { filesBetween } from './photos.ts';
import { rowConflicts } from './row-conflicts.ts';
import type { MergeNote, MergePlan, MergeSide } from './shape.ts';
import { strandsOf } from './strands.ts';

/** `base`: an ancestor of both; it is of use where they have no history in common. */
export function planMerge(ours: MergeSide, theirs: MergeSide, base: MergeSide | null = null): MergePlan {
  const meeting = meetingOf(ours, theirs, base, planning());
  const { by, merged } = meeting;
  const clashes = clashesOf(meeting);
  const conflicts = questionsOf(meeting, clashes).map(({ conflict }) => conflict);
  const came = countsBetween(meeting.ours, merged);
  const only_here = countsBetween(meeting.theirs, merged);
  const isNewHere =
    by === 'history' ? !holdTheSame(merged.doc, ours.doc) : came.length + conflicts.length > 0;
  const isNewThere = by === 'history' ? !holdTheSame(merged.doc, theirs.doc) : only_here.length > 0;
  return {
    relation: relationOf(isNewHere, isNewThere),
    by,
    ...(by === 'history'
      ? strandsOf(meeting.ours, meeting.theirs, merged)
      : { ours: [], theirs: [], since: null }),
    came,
    only_here,
    same_rows: sameRows(meeting.ours, meeting.theirs),
    different: new Set(conflicts.map(({ table, row_id }) => `${table} ${row_id}`)).size,
    conflicts,
    files: filesBetween(ours, theirs, merged),
    // Last: what is put right is written into the merged copy.
    notes: [...meeting.notes, ...moved(meeting, clashes), ...keptRows(meeting), ...repairs(meeting)],
  };
}

export const questionsOf = (meeting: Meeting, clashes: readonly OrderClash[]): Question[] => [
  ...amendmentConflicts(meeting),
  ...orderConflicts(meeting, clashes),
  ...placeConflicts(meeting),
  ...cellConflicts(meeting),
  ...rowConflicts(meeting),
];

const relationOf = (isNewHere: boolean, isNewThere: boolean): MergePlan['relation'] =>
  isNewHere ? (isNewThere ? 'both changed' : 'theirs ahead') : isNewThere ? 'ours ahead' : 'same';

/** Rows that were deleted on one side and edited on the other, where the histories say so. */
function keptRows({ by, ours, theirs, merged }: Meeting): MergeNote[] {
  if (by === 'rows') return [];
  const kept = (from: typeof ours, other: typeof ours, words: string): MergeNote[] =>
    (Object.keys(schemas) as TableName[]).flatMap((table) =>
      (from.read(table)?.deleted ?? []).flatMap(({ row: { row_id } }) => {
        const now = merged.row(table, row_id);
        if (now === undefined || other.row(table, row_id) === undefined) return [];
        return [{ words: `${capital(rowName(table, now.cells))} ${words}: it is kept.` }];
      }),
    );
  return [
    ...kept(ours, theirs, 'was deleted here and edited in the copy'),
    ...kept(theirs, ours, 'was deleted in the copy and edited here'),
  ];
}

function moved(meeting: Meeting, clashes: readonly OrderClash[]): MergeNote[] {
  const { length } = movesByClock(meeting, clashes);
  if (length === 0) return [];
  return [
    {
      words: `${length === 1 ? 'One reading is' : `${length} readings are`} put in order by the clock. It changes no number.`,
    },
  ];
}

function repairs({ edits }: Meeting): MergeNote[] {
  edits.forgetNews();
  edits.repaired(null);
  const news = edits.news();
  return news === null ? [] : [{ words: news.words }];
}

/** Whoever would write: what is planned is thrown away. */
export function planning(): Writer {
  let made = 0;
  return {
    crew: () => ({ by: '', device: '' }),
    time: () => '',
    newRowId: () => `planned ${made++}`,
  };
}
