/**
 * Readings are never changed: a later row names the reading it amends and replaces or withdraws it. Amendments can be
 * amended: replacing a replacement puts the last one in the place of the reading; withdrawing an amendment undoes it.
 * A reading with two amendments in force is a conflict: it is used as first written, and said so.
 */

import type { Amendment } from './campaign.ts';
import { type Draft, FRAMES, refuse } from './draft.ts';

export interface Amended {
  /** The rows that count, each reading once. */
  standing: Draft[];
  /** Readings withdrawn, to tell whoever still refers to them. */
  withdrawn: Draft[];
  /** Amendments set aside though the reading they name stands: they are no readings of their own. */
  idle: Draft[];
  amendments: Amendment[];
}

/** What a row comes to once its amendments are applied: some row, nothing, or the withdrawal of what it amends. */
type Outcome = Draft | 'gone' | 'withdraws';

/** Applies the amendments among identified rows. */
export function applyAmendments(drafts: readonly Draft[]): Amended {
  const isAmendment = ({ values }: Draft): boolean => (values.amends ?? values.amend_kind ?? null) !== null;
  if (!drafts.some(isAmendment)) return { standing: [...drafts], withdrawn: [], idle: [], amendments: [] };

  const byId = new Map(drafts.map((draft) => [draft.row_id, draft]));
  const amendedBy = new Map<Draft, Draft[]>();
  const targetOf = new Map<Draft, Draft>();
  const idle: Draft[] = [];
  for (const draft of drafts) {
    const { isReadings } = FRAMES.get(draft.table)!;
    if (!isReadings) continue;
    const { amends, amend_kind } = draft.values;
    if ((amends ?? null) === null) {
      if ((amend_kind ?? null) !== null) refuse(draft, 'amends', namesNothing(String(amend_kind)));
      continue;
    }
    const target = byId.get(String(amends));
    if (target === undefined || target.table !== draft.table) {
      refuse(draft, 'amends', unknownReading(draft, String(amends), target));
      continue;
    }
    if ((amend_kind ?? null) === null && draft.usable) refuse(draft, 'amend_kind', kindMissing());
    if (!draft.usable) {
      refuse(draft, 'amends', notApplied(target));
      idle.push(draft);
      continue;
    }
    targetOf.set(draft, target);
    const others = amendedBy.get(target);
    if (others === undefined) amendedBy.set(target, [draft]);
    else others.push(draft);
  }

  const amendments: Amendment[] = [];
  const outcomes = resolve(drafts, amendedBy, targetOf, amendments, idle);
  const standing: Draft[] = [];
  const withdrawn: Draft[] = [];
  const idles = new Set(idle);
  for (const draft of drafts) {
    if (targetOf.has(draft) || idles.has(draft)) continue;
    const outcome = outcomes.get(draft) ?? draft;
    if (outcome === 'gone') withdrawn.push(draft);
    else if (outcome === draft) standing.push(draft);
    else if (outcome !== 'withdraws') {
      takePlace(outcome, draft);
      standing.push(outcome);
    }
  }
  return { standing, withdrawn, idle, amendments };
}

/** Outcome of every row that amends or is amended, amendments before what they amend. */
function resolve(
  drafts: readonly Draft[],
  amendedBy: ReadonlyMap<Draft, Draft[]>,
  targetOf: Map<Draft, Draft>,
  amendments: Amendment[],
  idle: Draft[],
): Map<Draft, Outcome> {
  const pending = new Map<Draft, number>();
  for (const [target, by] of amendedBy) pending.set(target, by.length);
  const ready = [...targetOf.keys()].filter((draft) => !pending.has(draft));
  const outcomes = new Map<Draft, Outcome>();
  for (let i = 0; i < ready.length; i++) {
    const draft = ready[i]!;
    outcomes.set(draft, outcome(draft, amendedBy.get(draft) ?? [], outcomes, amendments, idle));
    const target = targetOf.get(draft);
    if (target === undefined) continue;
    const left = pending.get(target)! - 1;
    pending.set(target, left);
    if (left === 0) ready.push(target);
  }
  // Whatever still waits amends itself in a circle.
  for (const draft of drafts) {
    if (!targetOf.has(draft) || outcomes.has(draft)) continue;
    refuse(draft, 'amends', circle());
    targetOf.delete(draft);
  }
  return outcomes;
}

function outcome(
  draft: Draft,
  by: readonly Draft[],
  outcomes: ReadonlyMap<Draft, Outcome>,
  amendments: Amendment[],
  idle: Draft[],
): Outcome {
  const own = draft.values.amend_kind === 'withdraw' ? 'withdraws' : draft;
  const inForce = by.filter((amendment) => outcomes.get(amendment) !== 'gone');
  if (inForce.length === 0) return own;
  if (inForce.length > 1) {
    draft.faults.push({
      severity: 'error',
      column: null,
      code: 'amendment-conflict',
      found: `amended by ${inForce.map(({ row_id, line }) => `${row_id} (line ${line})`).join(' and ')}`,
      expected: 'one amendment of a reading',
      mend: 'Withdraw all but one of them. Until then the reading is used as it was first written.',
    });
    idle.push(...inForce);
    return own;
  }
  const amendment = inForce[0]!;
  const to = outcomes.get(amendment)!;
  amendments.push({
    table: draft.table,
    row_id: draft.row_id,
    by_row_id: amendment.row_id,
    kind: amendment.values.amend_kind === 'withdraw' ? 'withdraw' : 'replace',
  });
  return to === 'withdraws' ? 'gone' : to;
}

/** A replacement stands where the reading stood, whatever `seq` it was given, while it is of the same hole. */
function takePlace(replacement: Draft, reading: Draft): void {
  const { seq } = reading.values;
  if (typeof seq !== 'number' || replacement.values.seq === seq) return;
  for (const series of ['hole', 'loop', 'gauge', 'date']) {
    if ((replacement.values[series] ?? null) !== (reading.values[series] ?? null)) return;
  }
  replacement.faults.push({
    severity: 'note',
    column: 'seq',
    code: 'amendment-place',
    found: `seq ${replacement.values.seq} in a row that replaces seq ${seq}`,
    expected: `seq ${seq}`,
    mend: 'Nothing need be done: it stands where the reading it replaces stood. To move a reading, withdraw it and write a new one.',
  });
  replacement.values.seq = seq;
}

const namesNothing = (kind: string) => ({
  code: 'amends-nothing',
  found: `amend_kind ${kind}, amends empty`,
  expected: 'the row_id of the reading that is amended',
  mend: 'Write its row_id into amends. The row is set aside.',
});

const unknownReading = (draft: Draft, id: string, elsewhere: Draft | undefined) => ({
  code: 'unknown-amended',
  found: id,
  expected:
    elsewhere === undefined
      ? `the row_id of a row of ${draft.table}`
      : `the row_id of a row of ${draft.table}; this one is of ${elsewhere.table}`,
  mend: 'Correct amends, or bring the amended row back. The amendment is set aside.',
});

const kindMissing = () => ({
  code: 'amend-kind-missing',
  found: '',
  expected: 'replace or withdraw',
  mend: 'Say what the amendment does.',
});

const notApplied = (target: Draft) => ({
  code: 'amendment-not-applied',
  found: `amends ${target.row_id} (line ${target.line})`,
  expected: 'an amendment that can be read',
  mend: 'Mend this row. Until then the reading is used as it was first written.',
});

const circle = () => ({
  code: 'amends-in-circle',
  found: 'rows that amend one another',
  expected: 'amendments of a reading',
  mend: 'Correct amends. The rows are set aside.',
});
