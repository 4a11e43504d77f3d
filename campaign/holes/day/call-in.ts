/**
 * Call-in for lone work, or with a contact ashore: when the next call is due and with whom, from the events of kind
 * `call_in`. Each call made is an event of its own and says when the next one is due; one without ends them.
 */
import { momentOf, type Row } from '@stillstand/campaign/tables';

/** Shown from here on before it is due, and a danger so long after: minutes. Common practice, no source. */
const CALL_SOON_MIN = 15;
const CALL_DANGER_MIN = 30;
const USUAL_INTERVAL_MS = 60 * 60_000;
const QUARTER_MS = 15 * 60_000;
const FIVE_MINUTES_MS = 5 * 60_000;

type CallEvent = Pick<Row<'events'>, 'kind' | 'time' | 'due' | 'with_whom' | 'seq'>;

export interface CallIn {
  /** As written. */
  with_whom: string;
  /** ISO 8601 with offset, as written. */
  due: string;
  due_ms: number;
  /** Whole minutes until it is due, never more than there are; negative when overdue. */
  minutes: number;
  level: 'later' | 'soon' | 'overdue' | 'danger';
  /** When the next call is due if they call now, ms since 1970: after as long as last time, and later than the one due. */
  next_ms: number;
}

/** The call that is due next; null where there is none, or the last one ended them. */
export function callInOf(events: readonly CallEvent[], now_ms: number): CallIn | null {
  const calls = events.filter(({ kind }) => kind === 'call_in');
  let last: CallEvent | null = null;
  for (const call of calls) if (last === null || !isBefore(call, last)) last = call;
  const due_ms = last?.due == null ? null : momentOf(last.due);
  if (last?.due == null || due_ms === null) return null;
  const minutes = Math.floor((due_ms - now_ms) / 60_000);
  const level =
    minutes < -CALL_DANGER_MIN
      ? 'danger'
      : minutes < 0
        ? 'overdue'
        : minutes <= CALL_SOON_MIN
          ? 'soon'
          : 'later';
  const made_ms = momentOf(last.time ?? '');
  // in whole quarter hours, so that rounding the next one down does not shorten it call by call
  const interval =
    made_ms !== null && due_ms > made_ms
      ? Math.ceil((due_ms - made_ms) / QUARTER_MS) * QUARTER_MS
      : USUAL_INTERVAL_MS;
  const next_ms = Math.floor((now_ms + interval) / FIVE_MINUTES_MS) * FIVE_MINUTES_MS;
  return {
    with_whom: last.with_whom?.trim() ?? '',
    due: last.due,
    due_ms,
    minutes,
    level,
    next_ms: next_ms > due_ms ? next_ms : due_ms + interval,
  };
}

/** By the clock; where one of them has none, by the order they were written in. */
function isBefore(a: CallEvent, b: CallEvent): boolean {
  const [at, before] = [momentOf(a.time ?? ''), momentOf(b.time ?? '')];
  return at !== null && before !== null ? at < before : false;
}

/** "in 12 min", "now", "5 min overdue", "1 h 05 min overdue". */
export function callWords({ minutes }: Pick<CallIn, 'minutes'>): string {
  if (minutes === 0) return 'now';
  const size = Math.abs(minutes);
  const words =
    size < 60 ? `${size} min` : `${Math.floor(size / 60)} h ${String(size % 60).padStart(2, '0')} min`;
  return minutes > 0 ? `in ${words}` : `${words} overdue`;
}
