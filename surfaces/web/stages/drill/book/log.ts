/** The log of a hole with what no single reading says: the days, the stops, how deep the shoe was, and the end. */

import { type HoleState, type Stop, stopsIn } from '@stillstand/campaign/holes';
import type { OrderClash } from '@stillstand/campaign/order';
import { clockOf, dateOf } from '@stillstand/campaign/tables';
import { t, translated } from '../../../language/index.ts';
import { plainWord } from '../forms/field.ts';
import type { BookLine } from './book.ts';

export type LogEntry =
  | { kind: 'day'; date: string }
  | { kind: 'stop'; stop: Stop }
  | {
      kind: 'line';
      line: BookLine;
      /** Shoe below the ground after it, m; null where it is as before, or not known. */
      shoe_m: number | null;
    }
  /** Behind the last of its readings. */
  | { kind: 'clash'; clash: OrderClash; lines: readonly BookLine[] }
  | { kind: 'end'; clock: string; words: string };

export function logOf(
  lines: readonly BookLine[],
  now: HoleState,
  clashes: readonly OrderClash[] = [],
): LogEntry[] {
  const clashAt = new Map(
    clashes.map((clash) => {
      const ids = new Set(clash.readings.map(({ row_id }) => row_id));
      return [lines.findLastIndex((line) => ids.has(line.root_id)), clash];
    }),
  );
  const counts = (line: BookLine): boolean => line.state === 'standing' || line.state === 'amended';
  const stops = new Map(
    stopsIn(
      lines.map((line) => {
        // what does not count any more, and checks, which are no work, open and close no gap
        const isWork = counts(line) && line.table !== 'checks' && line.table !== 'events';
        if (isWork) return { from: beganAt(line), to: line.time, event: null };
        return { from: '', to: '', event: counts(line) && line.table === 'events' ? eventWords(line) : '' };
      }),
    ).map((stop) => [stop.after, stop]),
  );
  const shoes = new Map(now.fold.states.map((state) => [state.row_id, state.penetration_now_m]));
  const log: LogEntry[] = [];
  let day = '';
  let shoe: number | null = null;
  for (const [i, line] of lines.entries()) {
    const date = dateOf(line.time) ?? '';
    if (date !== '' && date !== day) {
      log.push({ kind: 'day', date });
      day = date;
    }
    const after = shoes.get(line.row_id) ?? null;
    const isNew = after !== null && (shoe === null || Math.abs(after - shoe) >= 0.005);
    log.push({ kind: 'line', line, shoe_m: isNew ? after : null });
    shoe = after ?? shoe;
    const stop = stops.get(i);
    const clash = clashAt.get(i);
    if (clash !== undefined) log.push({ kind: 'clash', clash, lines });
    if (stop !== undefined) log.push({ kind: 'stop', stop });
  }
  if (now.ended) {
    const { state, end_reason, ended_at } = now.row;
    const date = dateOf(ended_at) ?? '';
    if (date !== '' && date !== day) log.push({ kind: 'day', date });
    const why = end_reason === null || end_reason === state ? '' : `: ${end_reason}`;
    log.push({
      kind: 'end',
      clock: clockOf(ended_at),
      words: t`Hole ended, ${translated(state ?? '')}${why}`,
    });
  }
  return log;
}

/** A run goes on over its rows; all else is of one moment. */
const beganAt = (line: BookLine): string =>
  line.table === 'runs' ? (line.versions[0]!.cells['time']?.trim() ?? '') : line.time;

function eventWords({ versions }: BookLine): string {
  const cells = versions.at(-1)!.cells;
  const kind = cells['kind']?.trim() ?? '';
  if (kind === 'hand_over') return t`hand-over`;
  const text = cells['text']?.trim() ?? '';
  return kind === 'note' || kind === '' ? text : `${plainWord(kind)}${text === '' ? '' : `, ${text}`}`;
}
