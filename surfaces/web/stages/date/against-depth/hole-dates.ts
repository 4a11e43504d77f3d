/** The holes that have dates, and what each of a hole's dates says there. */
import type { HoleHistory, Results } from '@stillstand/campaign/results';
import type { DateState, PlacedDate } from '@stillstand/output/figures';
import type { DocRow } from '../../../store/index.ts';
import { type Determination, grouped } from '../rows.ts';

/** The hole with most dates in use: there is most to see. */
export const fullest = (holes: ReadonlyMap<string, number>): string | null =>
  [...holes].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;

export interface HoleDate extends Determination {
  /** Null for a date that is not drawn: without an age or a depth. */
  state: DateState | null;
  /** The date among the others of its hole; null where the history does not use it. */
  clock: HoleHistory['clocks'][number] | null;
}

/** Every determination of a hole, from the top down; those without a depth last. */
export function datesOf(
  hole: string,
  rows: readonly DocRow[],
  samples: readonly DocRow[],
  results: Results,
  drawn: readonly PlacedDate[],
): HoleDate[] {
  const history = results.histories.find((each) => each.hole === hole);
  const clocks = new Map(history?.clocks.map((clock) => [clock.id, clock]));
  const states = new Map(drawn.map(({ date, state }) => [date.row_id, state]));
  return grouped(rows, samples, results)
    .flatMap((group) => group.rows)
    .filter((each) => each.hole === hole)
    .map((each) => {
      const state = states.get(each.row.row_id) ?? null;
      const isUsed = each.date !== null && state !== 'rejected';
      return { ...each, state, clock: isUsed ? (clocks.get(each.date!.lab_code) ?? null) : null };
    });
}
