/**
 * The tidal range of another time as a factor of today's, from a table a person states (a palaeotidal model, a
 * reconstruction). Straight between its rows, constant beyond its ends. The table is wrong as a whole: its error is one
 * for all ages.
 */
import { lookLikeKa, square } from '@stillstand/science/base';

/** One row: the range at an age ÷ today's. */
export interface TideRange {
  age_cal_bp: number;
  /** > 0; 1 is today's range. */
  factor: number;
  /** 1 sigma, ≥ 0, shared by all rows. */
  factor_sigma: number;
}

/** A distribution of an age on a yearly grid, need not be normalised. */
export interface AgeDensity {
  from_cal_bp: number;
  density: ArrayLike<number>;
}

/** The range at the time of a dated sample. */
export interface RangeThen {
  /** Mean over the age's distribution. */
  factor: number;
  /** 1 sigma of the table there, shared by all who use it. */
  factor_sigma: number;
  /** 1 sd of the factor over the age's distribution: the sample's own. */
  age_sigma: number;
}

/** `rows`: at least one, in order of age, no two of one age. */
function rangeAt(rows: readonly TideRange[], age_cal_bp: number): { factor: number; factor_sigma: number } {
  const next = rows.findIndex((row) => row.age_cal_bp >= age_cal_bp);
  const upper = next === -1 ? rows.at(-1)! : rows[next]!;
  const lower = next <= 0 ? upper : rows[next - 1]!;
  const width = upper.age_cal_bp - lower.age_cal_bp;
  const share = width > 0 ? (age_cal_bp - lower.age_cal_bp) / width : 0;
  return {
    factor: lower.factor + share * (upper.factor - lower.factor),
    factor_sigma: lower.factor_sigma + share * (upper.factor_sigma - lower.factor_sigma),
  };
}

/** The same for an age that is not certain; NaN for one without mass. */
export function rangeThen(rows: readonly TideRange[], { from_cal_bp, density }: AgeDensity): RangeThen {
  let mass = 0;
  let factor = 0;
  let sigma = 0;
  const factors = Float64Array.from(density, (weight, i) => {
    const at = rangeAt(rows, from_cal_bp + i);
    mass += weight;
    factor += weight * at.factor;
    sigma += weight * at.factor_sigma;
    return at.factor;
  });
  const mean = factor / mass;
  let variance = 0;
  for (let i = 0; i < factors.length; i++) variance += (density[i]! * square(factors[i]! - mean)) / mass;
  return { factor: mean, factor_sigma: sigma / mass, age_sigma: Math.sqrt(variance) };
}

/** What is wrong with a table, and with which of its rows. */
export interface TideRangeFault {
  reason: 'out_of_order' | 'same_age' | 'ages_in_ka' | 'not_of_today';
  /** Number of the row as given; null for the table as a whole. */
  row: number | null;
  found: string;
  expected: string;
  fix: string;
}

/** So near the present a factor of today's range is 1, within its error and a tenth. */
const TODAY_YR = 100;
const TODAY_OFF = 0.1;

/**
 * Rows in order of age, without a second of one age; none where the ages look like thousands of years, or the present has another range than today's.
 * `oldest_cal_bp`: oldest sample that the table is for.
 */
export function tideRangeTable<R extends TideRange>(
  given: readonly R[],
  oldest_cal_bp: number,
): { rows: R[]; faults: TideRangeFault[] } {
  const faults: TideRangeFault[] = [];
  const ages = given.map((row) => row.age_cal_bp);
  if (lookLikeKa(ages, oldest_cal_bp)) {
    const [youngest, oldest] = [Math.min(...ages), Math.max(...ages)];
    faults.push({
      reason: 'ages_in_ka',
      row: null,
      found: `ages from ${youngest} to ${oldest}, and samples as old as ${Math.round(oldest_cal_bp)} cal BP`,
      expected: 'ages in years before 1950 CE',
      fix: `Write years: ${oldest} ka is ${Math.round(1000 * oldest)}. If these are years, add the oldest row once more at the age of the oldest sample. Today’s range is used until then.`,
    });
    return { rows: [], faults };
  }
  const today = given.find((row) => Math.abs(row.age_cal_bp) <= TODAY_YR);
  if (today !== undefined && Math.abs(today.factor - 1) > TODAY_OFF + 2 * today.factor_sigma) {
    faults.push({
      reason: 'not_of_today',
      row: given.indexOf(today),
      found: `a factor of ${today.factor} at ${today.age_cal_bp} cal BP`,
      expected: '1: times the range of today',
      fix: 'Divide the ranges by that of today: a range in metres is no factor. Today’s range is used until then.',
    });
    return { rows: [], faults };
  }
  const direction = Math.sign((given.at(-1)?.age_cal_bp ?? 0) - (given[0]?.age_cal_bp ?? 0));
  const turn = given.findIndex(
    (row, i) => i > 0 && (row.age_cal_bp - given[i - 1]!.age_cal_bp) * direction < 0,
  );
  if (turn !== -1)
    faults.push({
      reason: 'out_of_order',
      row: turn,
      found: `${given[turn]!.age_cal_bp} after ${given[turn - 1]!.age_cal_bp} cal BP`,
      expected: 'ages in their order',
      fix: 'Check for a mistyped age. The rows are used in the order of their ages.',
    });
  const rows: R[] = [];
  given.forEach((row, i) => {
    if (rows.some((each) => each.age_cal_bp === row.age_cal_bp))
      faults.push({
        reason: 'same_age',
        row: i,
        found: `a second row at ${row.age_cal_bp} cal BP`,
        expected: 'one row for each age',
        fix: 'Delete one of the two. The first is used until then.',
      });
    else rows.push(row);
  });
  return { rows: rows.sort((a, b) => a.age_cal_bp - b.age_cal_bp), faults };
}
