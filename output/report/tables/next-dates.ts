/** What more dates would do to each reported rate: a row for each date of each choice. */
import { curveOf, type Results, resultsShape } from '@stillstand/campaign/results';
import { choiceKind, type DateChoice, datingOf, nextDates } from '@stillstand/output/words';
import type { Pair } from '@stillstand/science/curve';
import { numberColumn, textColumn, yesNoColumn } from './column.ts';
import { table } from './table.ts';
import { decimalsWith } from './units.ts';

interface Row extends DateChoice {
  interval: { older_cal_bp: number; younger_cal_bp: number };
  /** Of the interval's choices, from 1. */
  number: number;
  date: DateChoice['choice']['dates'][number];
  /** Of the rate as it is. */
  sd_mm_yr: number;
  names: ReadonlyMap<string, string>;
  converged: boolean;
}

const IN_DATE = 'named in the column date';
const rateDecimals = ({ sd_mm_yr }: Row): number => decimalsWith(2 * sd_mm_yr, 'mm/yr');
/** Empty but for pairs. */
const ofPair = (heading: string, about: string, of: (pair: Pair) => number) =>
  numberColumn({ heading, about }, 4, ({ choice }: Row) => ('beyond' in choice ? of(choice) : null));

export const NEXT_DATES = table({
  file: 'next_dates.csv',
  entry: 'undated[]',
  about:
    'what a date of each layer that waits for one, of the best new index point, and of two together would do to each reported rate, on average; dates that fail or are outliers counted. A promise under the model of the rate: where the rate has a kink it does not bind',
  shape: resultsShape.fields.undated.of,
  rows: rowsOf,
  read: () => null,
  leftOut: {
    row_id: 'several rows are of one layer; in results.json',
    point: IN_DATE,
    sample: IN_DATE,
    hole: IN_DATE,
    rsl_m: 'level_m is what the curve has at its ages; in results.json',
    rsl_sigma_m: 'in results.json',
  },
  first: [
    numberColumn(
      { heading: 'older_cal_bp', about: 'older end of the rate’s interval; cal BP' },
      0,
      ({ interval }: Row) => interval.older_cal_bp,
    ),
    numberColumn(
      { heading: 'younger_cal_bp', about: 'younger end; cal BP' },
      0,
      ({ interval }: Row) => interval.younger_cal_bp,
    ),
    numberColumn(
      { heading: 'choice', about: 'number of the choice; each date of it has a row' },
      0,
      ({ number }: Row) => number,
    ),
    textColumn({ heading: 'what', about: 'one date, two together, or what a budget buys' }, ({ kind }: Row) =>
      choiceKind(kind),
    ),
    textColumn(
      { heading: 'date', about: 'what would be dated, of several the oldest first' },
      ({ date, names }: Row) => datingOf(date.point, names),
    ),
    numberColumn(
      { heading: 'age_cal_bp', about: 'mean age where it would be expected; cal BP' },
      0,
      ({ date }: Row) => date.age_cal_bp.mean,
    ),
    numberColumn(
      { heading: 'age_yr_1sigma', about: 'standard deviation of that age; 0 where it is chosen; yr' },
      0,
      ({ date }: Row) => date.age_cal_bp.sd,
    ),
    numberColumn(
      { heading: 'level_m', about: 'mean level where it would be expected; m' },
      1,
      ({ date }: Row) => date.level_m.mean,
    ),
    numberColumn(
      { heading: 'rate_now_mm_yr_2sigma', about: '2 sigma of the rate as it is; mm/yr' },
      rateDecimals,
      ({ sd_mm_yr }: Row) => 2 * sd_mm_yr,
    ),
    numberColumn(
      {
        heading: 'rate_then_mm_yr_2sigma',
        about: 'the same with all dates of the choice: root of the expected variance; mm/yr',
      },
      rateDecimals,
      ({ sd_mm_yr, choice }: Row) => 2 * sd_mm_yr * choice.left,
    ),
    numberColumn(
      { heading: 'share_left', about: 'share of the rate’s sd that is left; 0 to 1' },
      4,
      ({ choice }: Row) => choice.left,
    ),
    numberColumn(
      { heading: 'share_left_monte_carlo_error_1sigma', about: 'Monte-Carlo standard error of that share' },
      4,
      ({ choice }: Row) => choice.mcse,
    ),
    yesNoColumn(
      {
        heading: 'worth_it',
        about:
          'whether the sd narrows by a fiftieth or more, and by more than twice the Monte-Carlo error; of a pair, than with the better one alone',
      },
      ({ choice }: Row) => choice.isWorth,
    ),
    numberColumn(
      {
        heading: 'variance_taken_alone',
        about: 'share of the rate’s variance that goes with this date alone',
      },
      4,
      ({ date }: Row) => date.alone,
    ),
    ofPair('variance_taken_together', 'pairs: share that goes with both', (pair) => pair.together),
    ofPair(
      'variance_beyond_sum',
      'pairs: that share less the sum of both alone; below 0 the two repeat one another',
      (pair) => pair.beyond.value,
    ),
    ofPair(
      'variance_beyond_sum_monte_carlo_error_1sigma',
      'pairs: its Monte-Carlo standard error',
      (pair) => pair.beyond.mcse,
    ),
    numberColumn(
      { heading: 'price', about: 'price of the choice, dates and cores, in the unit it was typed in' },
      2,
      ({ choice }: Row) => choice.price,
    ),
    yesNoColumn(
      { heading: 'converged', about: 'whether every reported number of the curve met the rules' },
      ({ converged }: Row) => converged,
    ),
  ],
});

function rowsOf(results: Results): Row[] {
  const converged = curveOf(results)?.diagnostics.converged ?? false;
  const { of, layers } = nextDates(results);
  return of.flatMap(({ interval, rate, choices }) =>
    choices.flatMap((choice, k) =>
      choice.choice.dates.map((date) => ({
        ...choice,
        interval,
        number: k + 1,
        date,
        sd_mm_yr: rate.rate_mm_yr.sd,
        names: layers.names,
        converged,
      })),
    ),
  );
}
