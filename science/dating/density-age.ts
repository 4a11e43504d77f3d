/** Calendar ages whose probability is neither normal nor even: a table of weights, or a likelihood of any shape. */
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

export interface WeightedAge {
  /** Years before 1950 CE. */
  age_cal_bp: number;
  /** How probable a year there is, 0 or more, on any scale. */
  weight: number;
}

/** Years from end to end that a density may hold. */
const LONGEST_YR = 1_000_000;

/**
 * A density straight between rows and 0 beyond them, on the yearly grid; each year holds what its whole cell from half a year
 * before to half a year after it holds, so that rows closer than a year keep their weight. Rows in any order. `not_a_number`
 * for fewer than two ages, two rows of one age, a weight below 0, no weight at all, or more than a million years.
 */
export function weightedAge(rows: readonly WeightedAge[]): Calibration | NotCalibrated {
  const sorted = [...rows].sort((a, b) => a.age_cal_bp - b.age_cal_bp);
  const isNumber = sorted.every(
    ({ age_cal_bp, weight }) => Number.isFinite(age_cal_bp) && weight >= 0 && weight < Infinity,
  );
  const isApart = sorted.every((row, i) => i === 0 || row.age_cal_bp > sorted[i - 1]!.age_cal_bp);
  if (sorted.length < 2 || !isNumber || !isApart)
    return notANumber(`${rows.length} rows`, 'two or more ages that differ, with weights of 0 or more');
  const [youngest, oldest] = [sorted[0]!.age_cal_bp, sorted.at(-1)!.age_cal_bp];
  if (oldest - youngest > LONGEST_YR) return notANumber(`${oldest - youngest} yr`, `at most ${LONGEST_YR}`);
  const most = Math.max(...sorted.map(({ weight }) => weight));
  if (!(most > 0)) return notANumber('weights of 0', 'a weight above 0');
  const first = Math.round(youngest);
  const density = new Float64Array(Math.round(oldest) - first + 1);
  for (const [i, right] of sorted.entries()) {
    const left = sorted[i - 1];
    if (left !== undefined) addStraight(density, first, left, right, most);
  }
  return trimmed(density, first, 0);
}

/** Adds the area below the line from one row to the next to the years it lies in. */
function addStraight(
  density: Float64Array,
  first_cal_bp: number,
  left: WeightedAge,
  right: WeightedAge,
  scale: number,
): void {
  const width = right.age_cal_bp - left.age_cal_bp;
  const heightAt = (age: number): number =>
    (left.weight + (right.weight - left.weight) * ((age - left.age_cal_bp) / width)) / scale;
  const end = Math.min(first_cal_bp + density.length - 1, Math.round(right.age_cal_bp));
  for (let year = Math.round(left.age_cal_bp); year <= end; year++) {
    const from = Math.max(left.age_cal_bp, year - 0.5);
    const to = Math.min(right.age_cal_bp, year + 0.5);
    if (to > from) density[year - first_cal_bp]! += (to - from) * heightAt((from + to) / 2);
  }
}

/** Points in each year of a short range; one is enough for a law that is a thousand years wide. */
const POINTS = 10;
const WIDE_YR = 1000;

/**
 * An age of which the likelihood is known at every number of years before its measurement, every year equally likely
 * beforehand and none of the future possible. Ages between `youngest_yr` and `oldest_yr`, counted back from the year CE;
 * null counts from 1950. On the yearly grid, each year the mean over
 * its cell, of ten points where the range is short.
 * @param likelihood at an age in years before measurement, on any scale, 0 or more
 */
export function ageLikelihood(
  likelihood: (age_yr: number) => number,
  youngest_yr: number,
  oldest_yr: number,
  counted_from_ce: number | null,
): Calibration | NotCalibrated {
  const least = Math.max(0, youngest_yr);
  if (!(Number.isFinite(oldest_yr) && oldest_yr > least && oldest_yr - least <= LONGEST_YR))
    return notANumber(`ages from ${youngest_yr} to ${oldest_yr} yr`, `a range of at most ${LONGEST_YR} yr`);
  const shift = counted_from_ce === null ? 0 : counted_from_ce - 1950;
  const first = Math.floor(least - shift);
  const density = new Float64Array(Math.ceil(oldest_yr - shift) - first + 1);
  const points = oldest_yr - least > WIDE_YR ? 1 : POINTS;
  for (let i = 0; i < density.length; i++)
    for (let k = 0; k < points; k++) {
      const age = first + i - 0.5 + (k + 0.5) / points + shift;
      if (age >= least) density[i]! += likelihood(age);
    }
  return density.some((year) => year > 0)
    ? trimmed(density, first, 0)
    : notANumber('a likelihood of 0 everywhere', 'one above 0 at some age');
}

const notANumber = (found: string, expected: string): NotCalibrated => ({
  kind: 'not_a_number',
  reason: `${found}; expected ${expected}`,
});
