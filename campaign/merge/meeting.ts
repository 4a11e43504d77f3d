/** The two copies and what they are together. */
import {
  type Change,
  type How,
  make,
  type Unattended,
  unattended,
  type Writer,
} from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { mergedByRows, type RowDifference } from './by-rows.ts';
import { type Copy, copyOf, haveHistoryInCommon } from './copy.ts';
import type { ConflictChoice, MergeConflict, MergeNote, MergePlan, MergeSide, Side } from './shape.ts';

export interface Meeting {
  readonly by: MergePlan['by'];
  readonly ours: Copy;
  readonly theirs: Copy;
  /** Before anything is put right or decided. */
  readonly merged: Copy;
  /** Writes into `merged`, which has been read by then. */
  readonly edits: Edits;
  /** Changes that are not looked at. */
  write(changes: readonly Change[], how: How): void;
  /** By rows: what says one thing here and another in the copy. */
  readonly differences: readonly RowDifference[];
  readonly notes: readonly MergeNote[];
}

type Edits = Unattended['edits'];

/** What an open campaign must offer for its conflicts to be decided. */
type Deciding = Pick<Edits, 'amend' | 'decide' | 'editRow' | 'move' | 'settle' | 'together'>;

/** A conflict, and how a choice of it is made. */
export interface Question {
  readonly conflict: MergeConflict;
  decide(edits: Deciding, choice: string): void;
}

/** `base`: an ancestor of both, where they have no history in common. What is written is by `writer`. */
export function meetingOf(
  ours: MergeSide,
  theirs: MergeSide,
  base: MergeSide | null,
  writer: Writer,
): Meeting {
  const copies = { ours: copyOf(ours.doc), theirs: copyOf(theirs.doc) };
  const doc = new Y.Doc();
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(ours.doc));
  const { read, forget, acts, edits } = unattended(doc, writer);
  const write: Meeting['write'] = (changes, how) => make({ doc, acts, read, forget, writer }, changes, how);
  if (haveHistoryInCommon(ours.doc, theirs.doc)) {
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(theirs.doc, Y.encodeStateVector(doc)));
    return { by: 'history', ...copies, merged: copyOf(doc), edits, write, differences: [], notes: [] };
  }
  const { changes, amended, differences, notes } = mergedByRows(
    copies.ours,
    copies.theirs,
    base === null ? null : copyOf(base.doc),
  );
  write(changes, 'merged');
  for (const { table, row_id, theirs: cells } of amended) edits.amend(table, row_id, cells);
  return { by: 'rows', ...copies, merged: copyOf(doc), edits, write, differences, notes };
}

/**
 * Whose each of the rivals of a conflict is. Where one copy has them all, having been merged before, what only it has is
 * its own and the rest is the other's.
 */
export function sidesOf<Rival>(
  { ours, theirs }: Meeting,
  rivals: readonly Rival[],
  has: (copy: Copy, rival: Rival) => boolean,
): Map<Rival, Side> {
  const sides = rivals.map((rival): Side => {
    const [here, there] = [has(ours, rival), has(theirs, rival)];
    return here === there ? 'both' : here ? 'ours' : 'theirs';
  });
  const rest: Side = !sides.includes('ours')
    ? sides.includes('theirs')
      ? 'ours'
      : 'both'
    : sides.includes('theirs')
      ? 'both'
      : 'theirs';
  return new Map(rivals.map((rival, i) => [rival, sides[i] === 'both' ? rest : sides[i]!]));
}

/** What is here comes first. */
export const bySide = (a: { side: Side | null }, b: { side: Side | null }): number => rank(a) - rank(b);

const rank = ({ side }: { side: Side | null }): number => (side === 'ours' ? 0 : side === null ? 2 : 1);

export const LATER: ConflictChoice = { key: 'later', side: null, words: 'Decide later' };
