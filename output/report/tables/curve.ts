/** The curve age by age, and its mean rates over intervals. */
import { curveOf, resultsShape } from '@stillstand/campaign/results';
import { isReached } from '@stillstand/output/words';
import type { CurveResult } from '@stillstand/science/curve';
import { along } from './along.ts';
import { yesNoColumn } from './column.ts';
import { CONVERGED_ALONE, DIAGNOSTICS_ELSEWHERE } from './converged.ts';
import { atTwoSigma, columnsOf, members, shownAs, someOf } from './described.ts';
import { ofEachCurve } from './table.ts';
import { decimalsWith } from './units.ts';

const { curve } = resultsShape.fields.curves.of.fields;
const ages = along(curve, 'ages_cal_bp');
const OF_A_NORMAL = 'of a normal law; the median, the 68 % and the 95 % are shown';
const ELSEWHERE = 'in results.json and in the report';

interface AtAge {
  at: ReturnType<typeof ages.at>;
  /** Of the reported ages. */
  age_decimals: number;
}

const band = (name: 'level_m' | 'rate_mm_yr', unit: string, heading: string) =>
  members(
    ages.shape.fields[name],
    {
      leftOut: { mean: OF_A_NORMAL, sd: OF_A_NORMAL },
      decimals: ({ at }: AtAge) => decimalsWith(2 * at[name].sd, unit),
    },
    heading,
  );

export const CURVE = ofEachCurve({
  file: 'curve.csv',
  entry: 'curves[].curve',
  about: `${curve.about}, a row for each age`,
  shape: ages.shape,
  rows: (results): readonly AtAge[] => {
    const of = curveOf(results);
    if (of === null) return [];
    const age_decimals = of.ages_cal_bp.every((age) => Number.isInteger(age)) ? 0 : 1;
    return Array.from(of.ages_cal_bp, (_, place) => ({ at: ages.at(of, place), age_decimals }));
  },
  read: ({ at }: AtAge) => at,
  plan: {
    shown: {
      ages_cal_bp: shownAs('age_cal_bp', { decimals: ({ age_decimals }: AtAge) => age_decimals }),
      level_m: band('level_m', 'm', 'rsl_m'),
      rate_mm_yr: band('rate_mm_yr', 'mm/yr', 'rate_mm_yr'),
      diagnostics: members(curve.fields.diagnostics, {
        shown: { converged: shownAs('converged') },
        leftOut: {
          ...CONVERGED_ALONE,
          mcse_level_max_m: DIAGNOSTICS_ELSEWHERE,
          mcse_rate_max_mm_yr: DIAGNOSTICS_ELSEWHERE,
        },
      }),
    },
  },
  leftOut: {
    settings: 'settings.csv has what a campaign can set',
    intervals: 'intervals.csv',
    points: 'points.csv',
    groups: ELSEWHERE,
    burials: ELSEWHERE,
    offsets: ELSEWHERE,
    rate_sd_mm_yr: ELSEWHERE,
    length_ka: ELSEWHERE,
    slowing_mm_yr_ka: ELSEWHERE,
    scatter_m: ELSEWHERE,
    changes: 'changes.csv',
    one_break: ELSEWHERE,
    prior_sensitivity: 'prior_sensitivity.csv',
    breaks_p: ELSEWHERE,
    draws: 'in results.npz',
  },
});

const interval = curve.fields.intervals.of;
type Interval = CurveResult['intervals'][number];
interface InCurve {
  of: CurveResult;
  interval: Interval;
}
const decimals = (row: InCurve): number => decimalsWith(2 * row.interval.rate_mm_yr.sd, 'mm/yr');
const INNER = 'the 95 % are shown';
const AT_THE_END = 'at the end of the row';

export const INTERVALS = ofEachCurve({
  file: 'intervals.csv',
  entry: 'curves[].curve.intervals[]',
  about: 'mean rates over intervals',
  shape: interval,
  rows: (results): InCurve[] => {
    const of = curveOf(results);
    return of === null ? [] : of.intervals.map((each) => ({ of, interval: each }));
  },
  read: (row) => row.interval,
  plan: {
    shown: {
      rate_mm_yr: members(interval.fields.rate_mm_yr, {
        shown: { sd: atTwoSigma('rate_mm_yr_2sd') },
        leftOut: {
          lower68: INNER,
          upper68: INNER,
          mcse: AT_THE_END,
          rhat: AT_THE_END,
          ess_bulk: AT_THE_END,
          ess_tail: AT_THE_END,
        },
        decimals,
      }),
      prior_halved_mm_yr: shownAs('rate_mm_yr_mean_prior_halved', { decimals }),
      prior_doubled_mm_yr: shownAs('rate_mm_yr_mean_prior_doubled', { decimals }),
      without_intercalated_mm_yr: shownAs('rate_mm_yr_mean_without_intercalated', { decimals }),
    },
  },
  last: [
    ...columnsOf(
      someOf(interval.fields.rate_mm_yr, ['mcse', 'rhat', 'ess_bulk', 'ess_tail']),
      (row: InCurve) => row.interval.rate_mm_yr,
      {
        shown: {
          mcse: shownAs('monte_carlo_error_mm_yr_1sigma', { decimals: 4 }),
          rhat: shownAs('r_hat', { decimals: 4 }),
          ess_bulk: shownAs('effective_draws_bulk'),
          ess_tail: shownAs('effective_draws_tail'),
        },
      },
    ),
    yesNoColumn(
      {
        heading: 'index_point_within',
        about: 'whether the age of any index point, 95 % as the curve has it, overlaps the interval',
      },
      (row: InCurve) => isReached(row.of, row.interval),
    ),
    ...columnsOf(someOf(curve.fields.diagnostics, ['converged']), (row: InCurve) => row.of.diagnostics),
  ],
});
