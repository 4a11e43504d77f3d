/** When work stood still: gaps between readings, with the reason that an event between them gives. */
import { momentOf } from '@stillstand/campaign/tables';

/** A gap longer than this is a stop, minutes. Common practice, no source. */
const STOP_MIN = 30;

/** A reading, or an event between readings, in the order of the log. */
export interface Spell {
  /** When it began and ended, ISO 8601 with offset; empty where no time was written. */
  from: string;
  to: string;
  /** Of an event, what happened; null for a reading. */
  event: string | null;
}

export interface Stop {
  /** Place of the last reading before it in the list. */
  after: number;
  /** ISO 8601 with offset, as written. */
  from: string;
  to: string;
  minutes: number;
  /** Null where no event says. */
  reason: string | null;
}

/** Stops between readings, whose times order nothing: one that is earlier than what came before opens no gap. */
export function stopsIn(spells: readonly Spell[]): Stop[] {
  const stops: Stop[] = [];
  let last: { at: number; to: string; to_ms: number } | null = null;
  let events: string[] = [];
  for (const [i, { from, to, event }] of spells.entries()) {
    if (event !== null) {
      if (event !== '') events.push(event);
      continue;
    }
    const from_ms = momentOf(from) ?? momentOf(to);
    const to_ms = momentOf(to) ?? from_ms;
    if (from_ms !== null && to_ms !== null) {
      const minutes = last === null ? 0 : Math.floor((from_ms - last.to_ms) / 60_000);
      if (last !== null && minutes > STOP_MIN)
        stops.push({
          after: last.at,
          from: last.to,
          to: momentOf(from) === null ? to : from,
          minutes,
          reason: events.length === 0 ? null : events.join('; '),
        });
      if (last === null || to_ms >= last.to_ms)
        last = { at: i, to: momentOf(to) === null ? from : to, to_ms };
      events = [];
    }
  }
  return stops;
}

const clock = (iso: string): string => iso.slice(11, 16);

/** "stopped 12:40–14:05, 1 h 25 min: winch rope"; the date where it ends on another day. */
export function stopWords({ from, to, minutes, reason }: Stop): string {
  const until = from.slice(0, 10) === to.slice(0, 10) ? clock(to) : `${clock(to)} on ${to.slice(0, 10)}`;
  const hours = Math.floor(minutes / 60);
  const length = hours === 0 ? `${minutes} min` : `${hours} h ${String(minutes % 60).padStart(2, '0')} min`;
  return `stopped ${clock(from)}–${until}, ${length}: ${reason ?? 'reason not recorded'}`;
}
