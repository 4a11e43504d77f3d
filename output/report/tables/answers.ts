/** What every curve is asked (highest stand, fastest and slowest stretch, acceleration), from its draws. */
import { curveOf, type Results, resultsShape } from '@stillstand/campaign/results';
import { type AnswerRow, answerRows } from '@stillstand/output/words';
import { type Amount, type Question, usualAnswers } from '@stillstand/science/curve';
import { numberColumn, textColumn, yesNoColumn } from './column.ts';
import { ofEachCurve } from './table.ts';
import { decimalsWith } from './units.ts';

interface Row extends AnswerRow {
  window: NonNullable<Extract<Question, { kind: 'highest' }>['window']>;
  converged: boolean;
}

const SUMMARISED = 'summarised; every draw is in results.npz';

const decimals = ({ amount, unit }: Row): number =>
  amount === null || unit === 'cal BP' ? 0 : decimalsWith(2 * amount.sd, 'm');
const amountColumn = (heading: string, about: string, of: (amount: Amount) => number) =>
  numberColumn({ heading, about }, decimals, ({ amount }: Row) => (amount === null ? null : of(amount)));
/** Of the amount where there is one, else of the probability. */
const errorColumn = (heading: string, about: string, digits: number, of: 'mcse' | 'effective_draws') =>
  numberColumn(
    { heading, about },
    digits,
    ({ amount, probability }: Row) => (amount ?? probability)?.[of] ?? null,
  );

export const ANSWERS = ofEachCurve({
  file: 'answers.csv',
  entry: 'curves[].curve.draws',
  about:
    'answers from the kept draws; where something may not have happened, its age is of the draws in which it did, with their share as the probability',
  shape: resultsShape.fields.curves.of.fields.curve.fields.draws,
  rows: (results): Row[] => rowsOf(results),
  read: () => null,
  leftOut: {
    level_m: SUMMARISED,
    rate_mm_yr: SUMMARISED,
    rate_sd_mm_yr: SUMMARISED,
    length_ka: SUMMARISED,
    residual_m: SUMMARISED,
  },
  first: [
    textColumn({ heading: 'what', about: 'what was asked' }, ({ what }: Row) => what),
    numberColumn(
      { heading: 'older_cal_bp', about: 'older end of the time looked at; cal BP' },
      0,
      ({ window }: Row) => window.older_cal_bp,
    ),
    numberColumn(
      { heading: 'younger_cal_bp', about: 'younger end of the time looked at; cal BP' },
      0,
      ({ window }: Row) => window.younger_cal_bp,
    ),
    textColumn(
      { heading: 'unit', about: 'unit of the numbers; empty for a probability' },
      ({ unit }: Row) => unit,
    ),
    amountColumn('median', 'median', (a) => a.median),
    amountColumn('lower_95', 'lower end of the central 95 %; of ages the younger', (a) => a.lower95),
    amountColumn('upper_95', 'upper end of the central 95 %; of ages the older', (a) => a.upper95),
    numberColumn(
      { heading: 'probability', about: 'probability of what is named; share of the draws' },
      4,
      ({ probability }: Row) => probability?.p ?? null,
    ),
    errorColumn(
      'monte_carlo_error_1sigma',
      'Monte-Carlo standard error of the mean, or of the probability where there is no number; unit of the row',
      4,
      'mcse',
    ),
    errorColumn('effective_draws', 'effective draws of the same', 0, 'effective_draws'),
    yesNoColumn(
      { heading: 'converged', about: 'whether every reported number of the curve met the rules' },
      ({ converged }: Row) => converged,
    ),
  ],
});

function rowsOf(results: Results): Row[] {
  const curve = curveOf(results);
  if (curve === null) return [];
  const { converged } = curve.diagnostics;
  return usualAnswers(curve).flatMap((answered) => {
    const { answer } = answered;
    return 'window' in answer
      ? answerRows(answered).map((row) => ({ ...row, window: answer.window, converged }))
      : [];
  });
}
