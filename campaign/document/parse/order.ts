/**
 * The order of readings is their `seq`, never their place in the file and never the clock alone: a wrong clock or a
 * sheet typed in later must not move a depth. Readings of one `seq` are ordered by what every copy of the campaign knows
 * of them, so that all copies agree.
 */
import { momentOf, schemas, type TableName } from '@stillstand/campaign/tables';
import { type Draft, FRAMES, saidOf } from './draft.ts';

/** What orders a reading among those of its series. */
export interface InOrder {
  readonly table: TableName;
  readonly seq: number;
  /** ISO 8601; one without an offset is no moment, and counts as none. */
  readonly time: string | null;
  readonly row_id: string;
}

const TABLE_AT = new Map(Object.keys(schemas).map((name, i) => [name, i]));

/**
 * A total order of readings: by `seq`; of one `seq` by their table in the order of the schemas (what is in the string
 * before what is read in it), then by the moment they were read, those that state none behind, then by identity.
 */
export function compareReadings(a: InOrder, b: InOrder): number {
  if (a.seq !== b.seq) return a.seq - b.seq;
  if (a.table !== b.table) return TABLE_AT.get(a.table)! - TABLE_AT.get(b.table)!;
  const [early, late] = [a, b].map(({ time }) => momentOf(time ?? '') ?? Number.POSITIVE_INFINITY);
  if (early !== late) return early! < late! ? -1 : 1;
  return a.row_id < b.row_id ? -1 : a.row_id > b.row_id ? 1 : 0;
}

/** Readings of one table in their order. */
export const inOrder = (drafts: readonly Draft[]): Draft[] =>
  drafts
    .map((draft) => ({ draft, ...placeOf(draft) }))
    .sort(compareReadings)
    .map(({ draft }) => draft);

function placeOf({ table, row_id, values: { seq, time } }: Draft): InOrder {
  return { table, row_id, seq: Number(seq), time: typeof time === 'string' ? time : null };
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
      fix: 'Say which came first: move one of them before or after the other (between 4 and 5 there is 4.5). Until then the order is by table, then by time.',
    });
  }
}
