/** Which conflicts of a merge a person has decided. */
import type { Decisions, MergeConflict } from '@stillstand/campaign/merge';

/** A decision to decide later leaves it open, as none does. */
const LATER = 'later';

const isOpen = (conflict: MergeConflict, decisions: Decisions): boolean =>
  (decisions.get(conflict.key) ?? LATER) === LATER;

export const openAmong = (conflicts: readonly MergeConflict[], decisions: Decisions): MergeConflict[] =>
  conflicts.filter((conflict) => isOpen(conflict, decisions));
