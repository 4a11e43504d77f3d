/** Where readings of a series contend for their places, and the orders in which they may have been read. */
import { compareReadings } from '@stillstand/campaign/document';
import { momentOf } from '@stillstand/campaign/tables';
import type { Placed } from './series.ts';

export type OrderSide = 'ours' | 'theirs' | 'both';

/** A reading, and which of two copies of the campaign has it. */
export interface Sided extends Placed {
  readonly side: OrderSide;
}

/** Readings that contend, in their present order, between the places of the readings before and behind them. */
export interface Contest {
  readonly readings: readonly Sided[];
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * The contests of one series, given in order. A reading that both copies have, in a place of its own, parts what is
 * before it from what is behind it. Between two of those, two readings of one place contend, and all that both sides
 * wrote as soon as the places of one side reach into those of the other: neither knew of the other's.
 */
export function contestsIn(readings: readonly Sided[]): Contest[] {
  const contests: Contest[] = [];
  const isAlone = (i: number): boolean =>
    readings[i]!.seq !== readings[i - 1]?.seq && readings[i]!.seq !== readings[i + 1]?.seq;
  let from = 0;
  for (let i = 0; i <= readings.length; i++) {
    if (i < readings.length && !(readings[i]!.side === 'both' && isAlone(i))) continue;
    if (i - from > 1) {
      const [low, high] = [readings[from - 1]?.seq ?? null, readings[i]?.seq ?? null];
      contests.push(...contestsBetween(readings.slice(from, i), low, high));
    }
    from = i + 1;
  }
  return contests;
}

function contestsBetween(readings: readonly Sided[], low: number | null, high: number | null): Contest[] {
  const [ours, theirs] = [of(readings, 'ours'), of(readings, 'theirs')];
  const isMixed =
    ours.length > 0 &&
    theirs.length > 0 &&
    ours[0]!.seq <= theirs.at(-1)!.seq &&
    theirs[0]!.seq <= ours.at(-1)!.seq;
  if (isMixed) return [{ readings, low, high }];
  const contests: Contest[] = [];
  for (let i = 0; i < readings.length; ) {
    const end = readings.findIndex((other, j) => j > i && other.seq !== readings[i]!.seq);
    const next = end === -1 ? readings.length : end;
    if (next - i > 1) {
      contests.push({
        readings: readings.slice(i, next),
        low: readings[i - 1]?.seq ?? low,
        high: readings[next]?.seq ?? high,
      });
    }
    i = next;
  }
  return contests;
}

const of = (readings: readonly Sided[], side: OrderSide): Sided[] => readings.filter((r) => r.side === side);

/**
 * The orders a person chooses between. What both have goes with the side that is first; where all is of one side, `ours`
 * is the present order and `theirs` its reverse.
 */
export function ordersOf({ readings }: Contest): Record<'clock' | 'ours' | 'theirs', Sided[]> {
  const first = (side: 'ours' | 'theirs'): Sided[] => {
    const other = side === 'ours' ? 'theirs' : 'ours';
    const has = (which: OrderSide): boolean => readings.some((r) => r.side === which);
    // What both have goes first with the side that is first, unless it is all there is on the other hand.
    const isFirst = (r: Sided): boolean =>
      r.side === side || (r.side === 'both' && (!has(side) || has(other)));
    return [...readings.filter(isFirst), ...readings.filter((r) => !isFirst(r))];
  };
  const isOneSided = readings.every((r) => r.side === readings[0]!.side);
  const clock = byClock(readings);
  return isOneSided
    ? { clock, ours: [...readings], theirs: readings.toReversed() }
    : { clock, ours: first('ours'), theirs: first('theirs') };
}

/**
 * By the moments at which they were read, as far as each side's own order allows: on one device what was written later
 * came later, whatever its clock said. A reading that states no moment follows the one before it on its side. The same on
 * both devices: no side comes first as such.
 */
function byClock(readings: readonly Sided[]): Sided[] {
  const at = new Map<Sided, number>();
  const strands = (['ours', 'theirs', 'both'] as const).map((side) => {
    const own = of(readings, side).sort(
      (a, b) => a.seq - b.seq || moment(a) - moment(b) || compareReadings(a, b),
    );
    let last = Number.NEGATIVE_INFINITY;
    for (const reading of own) {
      if (Number.isFinite(moment(reading))) last = moment(reading);
      at.set(reading, last);
    }
    return own;
  });
  const order: Sided[] = [];
  for (;;) {
    const heads = strands.flatMap((strand) => strand[0] ?? []);
    if (heads.length === 0) return order;
    const next = heads.reduce((a, b) => ((at.get(a)! - at.get(b)! || compareReadings(a, b)) <= 0 ? a : b));
    order.push(next);
    strands.find((strand) => strand[0] === next)!.shift();
  }
}

/** Milliseconds since 1970; infinite where none is stated. */
const moment = ({ time }: Placed): number => momentOf(time ?? '') ?? Number.POSITIVE_INFINITY;
