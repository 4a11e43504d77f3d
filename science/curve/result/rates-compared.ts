/** Models of the rate side by side: each computed from the same points, the best leave-one-out score first. */
import { summaryShape } from '@stillstand/science/base';
import { as, list, number, orNull, record, type ShapeValue, word, yesNo } from '@stillstand/science/shape';
import { rateModelShape } from './result.ts';

export const UNDECIDED = [
  'not converged',
  'fewer than two points',
  'below 4 units',
  'below 2 standard errors',
] as const;

export const ratesComparedShape = list(
  'models of the rate compared, the best leave-one-out score first; none is chosen by the program',
  record('one model', {
    rate_model: rateModelShape,
    converged: yesNo('its numbers have settled enough for scores: R-hat below 1.05, 100 effective draws'),
    score: number('sum of the scores of its points', ''),
    score_mcse: number('Monte-Carlo standard error of that sum', ''),
    behind: orNull(number('score of the first less its own; null for the first', '')),
    behind_se: orNull(
      number('standard error of that difference; null for the first or where there is none', ''),
    ),
    undecided: orNull(
      word(
        'why the data do not decide between it and the first; null where they do, and for the first',
        UNDECIDED,
      ),
    ),
    rate_mm_yr: orNull(
      as('mean rate over the first interval, mm/yr; null where none is asked for', summaryShape),
    ),
  }),
);
export type RatesCompared = ShapeValue<typeof ratesComparedShape>;
