/** Which contact between two neighbouring holes each row of the boundaries is about. */
import type { Ending, SectionBoundary, SectionFinding } from './shape.ts';
import type { Said } from './shapes-between.ts';
import { isOneSided, type Slot } from './slots.ts';
import type { Stack } from './stack.ts';

export interface SaidBetween {
  /** Of each slot; `at` from the left hole (0) to the right one (1). */
  slots: (Said | null)[];
  /** Of layers of the left and of the right hole below the lowest tie, by their places; `at` from their own hole. */
  left: Map<number, Said>;
  right: Map<number, Said>;
  problems: SectionFinding[];
  /** Rows that are about a contact here. */
  used: Set<string>;
}

const named = (name: string | null): string => (name ?? '').trim().replace(/\s+/g, ' ').toLowerCase();

/** Places of units that rows say end before the other hole. */
export function endedUnits(own: Stack, other: Stack, rows: readonly SectionBoundary[]): ReadonlySet<number> {
  const ending = rows.filter(
    (row) =>
      row.hole_a === own.hole && (row.hole_b === null || row.hole_b === other.hole) && isEnd(row.ending),
  );
  return new Set(ending.map(({ horizon }) => own.layers.findIndex(({ id }) => id === horizon)));
}

const isEnd = (ending: Ending): boolean => ending === 'pinch_out' || ending === 'truncated';

export function saidBetween(
  left: Stack,
  right: Stack,
  slots: readonly Slot[],
  rows: readonly SectionBoundary[],
): SaidBetween {
  const made: SaidBetween = {
    slots: slots.map(() => null),
    left: new Map(),
    right: new Map(),
    problems: [],
    used: new Set(),
  };
  const twice = (row: SectionBoundary, other: Said | null | undefined): boolean => {
    made.used.add(row.row_id);
    if (other === null || other === undefined) return false;
    made.problems.push({ kind: 'boundary_twice', row_id: row.row_id, other: other.row_id });
    return true;
  };
  for (const row of rows) {
    const isTurned = row.hole_a === right.hole;
    if (row.hole_a !== left.hole && !isTurned) continue;
    const other = isTurned ? left.hole : right.hole;
    if (row.hole_b !== null && row.hole_b !== other) continue;
    const own = isTurned ? right : left;
    const place = own.layers.findIndex(({ id }) => id === row.horizon);
    const k = slotOf(slots, row.horizon, place, isTurned);
    const { row_id, ending, lift_m } = row;
    const ends = isEnd(ending);
    if (k === -1) {
      // Below the lowest tie a unit may be said to end; there is no line to lift or to break.
      if (!ends) continue;
      const below = isTurned ? made.right : made.left;
      if (place === -1 || slots.some((slot) => (isTurned ? slot.b : slot.a).includes(place))) continue;
      if (!twice(row, below.get(place))) below.set(place, { row_id, ending, at: row.at_fraction, lift_m });
      continue;
    }
    const slot = slots[k]!;
    if (ends && !isOneSided(slot)) {
      if (row.hole_b === null) continue;
      made.used.add(row_id);
      made.problems.push({ kind: 'boundary_against_tie', row_id, tie: slot.tie?.row_id ?? '' });
      continue;
    }
    if (twice(row, made.slots[k])) continue;
    const isMeeting = !slot.isOneBody && slot.a.length === 1 && slot.b.length === 1;
    if (ending === 'interfingered' && !isMeeting) made.problems.push({ kind: 'no_fingers', row_id });
    const at = row.at_fraction === null || !isTurned ? row.at_fraction : 1 - row.at_fraction;
    made.slots[k] = { row_id, ending, at, lift_m };
  }
  return made;
}

/** The slot whose base it is: by the name of its horizon, or as the base of a unit of the hole named first. */
function slotOf(slots: readonly Slot[], horizon: string, place: number, isTurned: boolean): number {
  const byName = slots.findIndex(({ tie }) => tie !== null && named(tie.horizon) === named(horizon));
  if (byName !== -1 || place === -1) return byName;
  return slots.findIndex(({ a, b }) => (isTurned ? b : a).at(-1) === place);
}
