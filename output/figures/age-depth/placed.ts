/** The dates of a hole as age against depth has them: at their depths, and whether they agree with the others. */
import type { DateResult, HoleHistory, Results } from '@stillstand/campaign/results';
import { isProbableOutlier } from '@stillstand/science/dating';
import { chronology } from '../chronology.ts';

/**
 * `in doubt`: more likely an outlier than not, in the history at hand. `aside`: accepted, but not of its layer (a maximum
 * or minimum age), so the history does not use it.
 */
export type DateState = 'in place' | 'in doubt' | 'aside' | 'rejected';

export interface PlacedDate {
  date: DateResult;
  state: DateState;
  depth_m: number;
  /** 95 % of its depth. */
  low_m: number;
  high_m: number;
}

/** Dates with a depth in the hole, from the top down. `isFormer`: the history is of the dates before the last change. */
export function placedDates(
  results: Results,
  hole: string,
  history: HoleHistory | null,
  isFormer = false,
): PlacedDate[] {
  const samples = results.samples.filter((sample) => sample.hole === hole);
  const depths = new Map(samples.map((sample) => [sample.sample, sample.depth_m]));
  const clocks = new Map(history?.clocks.map((clock) => [clock.id, clock]));
  const stateOf = (date: DateResult): DateState => {
    if (date.status === 'rejected') return 'rejected';
    const clock = clocks.get(date.lab_code);
    if (clock === undefined) return history === null || isFormer ? 'in place' : 'aside';
    return isProbableOutlier(clock) ? 'in doubt' : 'in place';
  };
  return chronology(results, samples).map(({ date, depth_m }) => {
    const depth = depths.get(date.sample) ?? null;
    return {
      date,
      state: stateOf(date),
      depth_m,
      low_m: depth?.lower95 ?? depth_m,
      high_m: depth?.upper95 ?? depth_m,
    };
  });
}

export interface PlacedHiatus {
  id: string;
  depth_m: number;
  length_yr: { median: number; lower95: number; upper95: number };
}

/** Hiatuses of a history at the bases of the units they lie below; one whose unit is gone is left out. */
export function placedHiatuses(results: Results, history: HoleHistory | null): PlacedHiatus[] {
  const units = results.holes.find(({ hole }) => hole === history?.hole)?.units ?? [];
  return (history?.hiatuses ?? []).flatMap(({ id, length_yr }) => {
    const unit = units.find((each) => (each.unit ?? each.row_id) === id);
    return unit === undefined ? [] : [{ id, depth_m: unit.depth_bottom_m.value, length_yr }];
  });
}
