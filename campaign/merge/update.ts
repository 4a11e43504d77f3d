/** The merge as one change of the copy here. */
import type { Writer } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { LATER, meetingOf } from './meeting.ts';
import { clashesOf, movesByClock } from './order-conflicts.ts';
import { questionsOf } from './plan.ts';
import type { Decisions, MergeSide } from './shape.ts';

/**
 * A Yjs update (format v1) for `ours`: all that the copy has and this has not, what is put right where the two met, and the
 * decisions, each as an act of `writer`. A decision that names no conflict of the two is passed over.
 */
export const mergedUpdate = (
  ours: MergeSide,
  theirs: MergeSide,
  decisions: Decisions,
  writer: Writer,
  base: MergeSide | null = null,
): Uint8Array =>
  Y.encodeStateAsUpdate(mergedCopy(ours, theirs, decisions, writer, base), Y.encodeStateVector(ours.doc));

/** The same as a document of its own. */
export function mergedCopy(
  ours: MergeSide,
  theirs: MergeSide,
  decisions: Decisions,
  writer: Writer,
  base: MergeSide | null = null,
): Y.Doc {
  const meeting = meetingOf(ours, theirs, base, writer);
  const clashes = clashesOf(meeting);
  const questions = questionsOf(meeting, clashes);
  const moves = movesByClock(meeting, clashes);
  meeting.edits.repaired(null);
  meeting.write(moves, 'repaired');
  for (const { conflict, decide } of questions) {
    const choice = decisions.get(conflict.key) ?? LATER.key;
    if (choice !== LATER.key && conflict.choices.some(({ key }) => key === choice))
      decide(meeting.edits, choice);
  }
  return meeting.merged.doc;
}
