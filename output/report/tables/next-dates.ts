/** What more dates would do to each reported rate: a row for each date, pair of dates and budget that was looked at. */
import { curveOf, type Results, resultsShape } from '@stillstand/campaign/results';
import { choiceKind, type DateChoice, datingOf, nextDates, written } from '@stillstand/output/words';
import type { Pair } from '@stillstand/science/curve';
import { numberColumn, textColumn, yesNoColumn } from './column.ts';
import { table } from './table.ts';
import { decimalsWith } from './units.ts';

interface Row extends DateChoice {
  interval: { older_cal_bp: number; younger_cal_bp: number };
  /** Of the rate as it is. */
  sd_mm_yr: number;
  names: ReadonlyMap<string, string>;
  converged: boolean;
}

const IN_DATES = 'named in the column dates';
const rateDecimals = ({ sd_mm_yr }: Row): number => decimalsWith(2 * sd_mm_yr, 'mm/yr');
const joined = (of: (date: Row['choice']['dates'][number]) => string) => (row: Row) =>
  row.choice.dates.map(of).join('; ');
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
    point: IN_DATES,
    sample: IN_DATES,
    hole: IN_DATES,
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
    textColumn({ heading: 'what', about: 'one date, two together, or what a budget buys' }, ({ kind }: Row) =>
      choiceKind(kind),
    ),
    textColumn({ heading: 'dates', about: 'what would be dated, the oldest first' }, (row: Row) =>
      row.choice.dates.map(({ point }) => datingOf(point, row.names)).join('; '),
    ),
    textColumn(
      { heading: 'age_cal_bp', about: 'mean age where each would be expected; cal BP' },
      joined((date) => written(date.age_cal_bp.mean, 0)),
    ),
    textColumn(
      { heading: 'level_m', about: 'mean level where each would be expected; m' },
      joined((date) => written(date.level_m.mean, 1)),
    ),
    numberColumn(
      { heading: 'rate_now_mm_yr_2sigma', about: '2 sigma of the rate as it is; mm/yr' },
      rateDecimals,
      ({ sd_mm_yr }: Row) => 2 * sd_mm_yr,
    ),
    numberColumn(
      {
        heading: 'rate_then_mm_yr_2sigma',
        about: 'the same with the dates: root of the expected variance; mm/yr',
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
      { heading: 'monte_carlo_error_1sigma', about: 'Monte-Carlo standard error of that share' },
      4,
      ({ choice }: Row) => choice.mcse,
    ),
    yesNoColumn(
      {
        heading: 'worth_it',
        about: 'whether the sd narrows by a fiftieth or more, and by more than twice the Monte-Carlo error',
      },
      ({ choice }: Row) => choice.isWorth,
    ),
    ofPair(
      'variance_taken_together',
      'pairs: share of the rate’s variance that goes',
      (pair) => pair.together,
    ),
    ofPair('variance_taken_alone_sum', 'pairs: sum of the shares that go with each alone', (pair) =>
      pair.dates.reduce((sum, { alone }) => sum + alone, 0),
    ),
    ofPair(
      'variance_beyond_monte_carlo_error_1sigma',
      'pairs: Monte-Carlo standard error of the difference of the two',
      (pair) => pair.beyond.mcse,
    ),
    numberColumn(
      { heading: 'price', about: 'price of the dates and cores, in the unit of the settings' },
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
    choices.map((choice) => ({
      ...choice,
      interval,
      sd_mm_yr: rate.rate_mm_yr.sd,
      names: layers.names,
      converged,
    })),
  );
}
