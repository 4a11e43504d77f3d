/** The order of readings is their `seq`, never their place in the file or their clock. */
import { type Draft, FRAMES, saidOf } from './draft.ts';

/** Rows by `seq`; rows of the same `seq` keep the order of their lines. */
export function bySeq(drafts: readonly Draft[]): Draft[] {
  return [...drafts].sort((a, b) => Number(a.values.seq) - Number(b.values.seq) || a.line - b.line);
}

/**
 * Warns where two readings of one hole, in whatever tables, have the same `seq`; likewise in a loop or gauge record, or
 * among the checks of a day.
 */
export function warnOfSameSeq(standing: readonly Draft[]): void {
  const series = new Map<string, Map<unknown, Draft>>();
  for (const draft of standing) {
    if (!draft.usable || !FRAMES.get(draft.table)!.isReadings) continue;
    const { hole, seq } = draft.values;
    const kind = (['loop', 'gauge', 'date'] as const).find((of) => typeof draft.values[of] === 'string');
    const name = typeof hole === 'string' ? hole : kind === undefined ? '' : `${kind} ${draft.values[kind]}`;
    let taken = series.get(name);
    if (taken === undefined) {
      taken = new Map();
      series.set(name, taken);
    }
    const first = taken.get(seq);
    if (first === undefined) {
      taken.set(seq, draft);
      continue;
    }
    draft.faults.push({
      severity: 'warning',
      column: 'seq',
      code: 'seq-twice',
      found: `number ${seq} of this reading and of the ${saidOf(first)}`,
      expected: 'a number of its own for each reading of a hole, loop, gauge or day',
      fix: 'Withdraw one of them and write it again with the number of its turn; between 4 and 5 there is 4.5. Until then they follow the order in which they are kept.',
    });
  }
}
