/** Ages of holes by elevation, for lines of one age: from ages against depth, or else from their dates alone. */
import type { HoleHistory, HoleResult } from '@stillstand/campaign/results';
import { inQuadrature } from '@stillstand/science/base';
import type { AgedHole } from '@stillstand/science/correlate';
import type { PlacedDate } from '../hole/compared-column.ts';
import type { HoleOnLine } from './placed.ts';

export function agedHoles(
  holes: readonly HoleOnLine[],
  histories: readonly HoleHistory[],
  dates: ReadonlyMap<string, readonly PlacedDate[]>,
): AgedHole[] {
  return holes.map(({ hole, along_m }) => ({
    hole: hole.hole,
    along_m,
    ages: agesOfHole(hole, histories, dates),
  }));
}

/** None where its ground has no elevation. */
export function agesOfHole(
  hole: HoleResult,
  histories: readonly HoleHistory[],
  dates: ReadonlyMap<string, readonly PlacedDate[]>,
): AgedHole['ages'] {
  const ground = hole.ground_elevation_m?.value;
  if (ground === undefined) return [];
  const history = histories.find((each) => each.hole === hole.hole);
  const direct = (dates.get(hole.hole) ?? []).filter(({ role }) => role === 'direct');
  // One of them is out of place, and the dates alone do not say which: a line through them would be drawn to it.
  const ofDates = runBackwards(direct)
    ? []
    : direct.map(({ mean_cal_bp, depth_m }) => ({
        age_cal_bp: mean_cal_bp,
        elevation_m: ground - depth_m,
      }));
  const median = history?.age_cal_bp.median;
  const ofHistory =
    history === undefined || median === undefined
      ? []
      : Array.from(history.depth_m, (depth_m, i) => ({
          age_cal_bp: median[i]!,
          elevation_m: ground - depth_m,
        }));
  return ofHistory.length > 1 ? ofHistory : ofDates;
}

/** Whether one date is older than one below it by more than twice the error of their difference. */
const runBackwards = (dates: readonly PlacedDate[]): boolean =>
  dates.some((above) =>
    dates.some(
      (below) =>
        below.depth_m > above.depth_m &&
        above.mean_cal_bp - below.mean_cal_bp > 2 * inQuadrature(above.sd_yr, below.sd_yr),
    ),
  );

/** At most so many ages are drawn. */
const MOST_LINES = 6;
const STEPS = [1, 2, 5].flatMap((n) => [10, 100, 1000, 10_000].map((ten) => n * ten)).sort((a, b) => a - b);

/** Round ages that at least two holes reach. */
export function roundAges(holes: readonly AgedHole[]): number[] {
  const spans = holes.flatMap(({ ages }) => {
    if (ages.length < 2) return [];
    const years = ages.map(({ age_cal_bp }) => age_cal_bp);
    return [[Math.min(...years), Math.max(...years)] as const];
  });
  for (const step of STEPS) {
    const reached = spans.flatMap(([young, old]) => multiples(young, old, step));
    const shared = [...Map.groupBy(reached, (age) => age)].filter(([, by]) => by.length > 1);
    if (shared.length <= MOST_LINES) return shared.map(([age]) => age).sort((a, b) => a - b);
  }
  return [];
}

function multiples(young: number, old: number, step: number): number[] {
  const first = Math.ceil(young / step);
  const count = Math.max(0, Math.floor(old / step) - first + 1);
  // More than these are too many whatever the step.
  return Array.from({ length: Math.min(count, 1000) }, (_, i) => (first + i) * step);
}
