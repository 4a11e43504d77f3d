/**
 * A curve less a prediction of a part of it (isostasy, land motion): what remains, draw by draw. The prediction is a
 * table of relative sea level: its part of it, m, positive where it would put the sea higher. Between its rows it is the
 * cubic with the slopes of the parabola through three neighbouring rows. Its error is one for all ages, as that of a
 * model is: each draw has a prediction that lies off by z times its sd everywhere, z normal.
 */
import { bandOf, type Quantity, randomStream, summarize } from '@stillstand/science/base';
import type { CurveResult } from '../result/result.ts';
import type { PublishedCurve } from './difference.ts';
import { areReported, meanRates, type NoAnswer, type Paths, pathsOf, tooFew } from './paths.ts';
import { cubicThrough, derivative, valueAt } from './polynomial.ts';

/**
 * The same curve with what remains of level, rate and the intervals whose ends it reports, at the reported ages that lie
 * within the prediction. Points, shared errors and diagnostics are those of the curve itself.
 */
export function lessPrediction(curve: CurveResult, prediction: PublishedCurve): CurveResult | NoAnswer {
  const paths = pathsOf(curve);
  const few = tooFew(paths);
  if (few !== null) return few;
  const rows = [...prediction.ages_cal_bp.keys()].sort(
    (a, b) => prediction.ages_cal_bp[a]! - prediction.ages_cal_bp[b]!,
  );
  const ages = rows.map((i) => prediction.ages_cal_bp[i]!);
  const [youngest, oldest] = [ages[0] ?? Number.NaN, ages.at(-1) ?? Number.NaN];
  const within = paths.ages_cal_bp.filter((age) => age >= youngest && age <= oldest);
  if (ages.length < 2 || within.length < 2)
    return {
      found:
        ages.length < 2
          ? `a prediction at ${ages.length} ages`
          : `a prediction from ${oldest} to ${youngest} cal BP`,
      expected: 'two ages or more, and two reported ages of the curve among them',
    };
  const level = splineAt(
    ages,
    rows.map((i) => prediction.level_m[i]!),
  );
  const sd = splineAt(
    ages,
    rows.map((i) => prediction.sd_m?.[i] ?? 0),
  );
  const stream = randomStream(`prediction ${curve.settings.seed}`);
  const off = Float64Array.from({ length: paths.draws }, () => stream.normal());
  const columns = [...within].map((age) => ({
    at: paths.ages_cal_bp.indexOf(age),
    level: level(age),
    // Rows that fall to 0 may leave a little less.
    sd: { ...sd(age), value: Math.max(0, sd(age).value) },
  }));
  const remaining = (from: Float64Array, of: 'value' | 'slope'): Float64Array =>
    Float64Array.from({ length: paths.draws * columns.length }, (_, j) => {
      const d = Math.floor(j / columns.length);
      const column = columns[j % columns.length]!;
      return from[d * paths.ages_cal_bp.length + column.at]! - column.level[of] - off[d]! * column.sd[of];
    });
  const left: Paths = {
    ...paths,
    ages_cal_bp: within,
    level_m: remaining(paths.level_m, 'value'),
    rate_m_yr: remaining(paths.rate_m_yr, 'slope'),
  };
  const rate_mm_yr = left.rate_m_yr.map((rate) => 1000 * rate);
  return {
    ...curve,
    settings: { ...curve.settings, ages_cal_bp: [...within] },
    ages_cal_bp: within,
    level_m: bandOf(byAge(left.level_m, left)),
    rate_mm_yr: bandOf(byAge(rate_mm_yr, left)),
    intervals: curve.intervals
      .filter((interval) => areReported(left, [interval.older_cal_bp, interval.younger_cal_bp]))
      .map((interval) => ({
        ...interval,
        rate_mm_yr: summarize(chainsOf(meanRates(left, interval), left.chains)),
        prior_halved_mm_yr: null,
        prior_doubled_mm_yr: null,
        no_outliers_mm_yr: null,
        no_burial_mm_yr: null,
        without_intercalated_mm_yr: null,
      })),
    draws: { ...curve.draws, level_m: left.level_m, rate_mm_yr },
  };
}

const chainsOf = (values: Float64Array, chains: number): Float64Array[] => {
  const each = values.length / chains;
  return Array.from({ length: chains }, (_, c) => values.subarray(c * each, (c + 1) * each));
};

const byAge = (rows: Float64Array, { ages_cal_bp, draws, chains }: Paths): Quantity[] =>
  Array.from(ages_cal_bp, (age, k) => ({
    name: `${age} cal BP`,
    chains: chainsOf(
      Float64Array.from({ length: draws }, (_, d) => rows[d * ages_cal_bp.length + k]!),
      chains,
    ),
    summary: null,
  }));

/** Times the slope of the straight line between two rows. */
const MOST_STEEP = 3;

/** Value at an age, and slope by time (towards younger ages) per year. `ages` ascend, two or more. */
function splineAt(
  ages: readonly number[],
  values: readonly number[],
): (age: number) => { value: number; slope: number } {
  const secant = (i: number): number => (values[i + 1]! - values[i]!) / (ages[i + 1]! - ages[i]!);
  const slopes = ages.map((age, i) => {
    const last = ages.length - 1;
    if (last === 1) return secant(0);
    // The parabola through three rows, at an end through the three nearest it.
    const middle = Math.min(Math.max(i, 1), last - 1);
    const [before, after] = [secant(middle - 1), secant(middle)];
    const bend = (after - before) / (ages[middle + 1]! - ages[middle - 1]!);
    const slope = before + bend * (2 * age - ages[middle - 1]! - ages[middle]!);
    // No steeper than three times the straight line on either side: the cubic then stays between its rows (Fritsch &
    // Carlson 1980, SIAM J. Numer. Anal. 17:238). A step in the rows would else swing far beyond them.
    const least = Math.min(...[i - 1, i].filter((k) => k >= 0 && k < last).map((k) => Math.abs(secant(k))));
    return Math.sign(slope) * Math.min(Math.abs(slope), MOST_STEEP * least);
  });
  return (age) => {
    let i = 0;
    while (i < ages.length - 2 && ages[i + 1]! <= age) i++;
    const years = ages[i + 1]! - ages[i]!;
    const u = (age - ages[i]!) / years;
    const cubic = cubicThrough(values[i]!, values[i + 1]!, years * slopes[i]!, years * slopes[i + 1]!);
    return { value: valueAt(cubic, u), slope: -valueAt(derivative(cubic), u) / years };
  };
}
