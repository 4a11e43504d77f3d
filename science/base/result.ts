/** What is said of draws, in every result that has some. */
import { number, numbers, record, type ShapeValue, yesNo } from '@stillstand/science/shape';

const OF = 'unit of the property';

const middle = () => ({
  median: number('median', OF),
  lower95: number('lower end of the central 95 %', OF),
  upper95: number('upper end of the central 95 %', OF),
});
const inner = () => ({
  lower68: number('lower end of the central 68 %', OF),
  upper68: number('upper end of the central 68 %', OF),
});

export const summaryShape = record(
  'posterior summary of one number, with the diagnostics of its draws',
  {
    mean: number('mean', OF),
    sd: number('standard deviation', OF),
    ...middle(),
    ...inner(),
    mcse: number('Monte-Carlo standard error of the mean', OF),
    rhat: number('rank-normalised split R-hat', ''),
    ess_bulk: number('bulk effective sample size', 'draws'),
    ess_tail: number('tail effective sample size', 'draws'),
  },
  'summary',
);
export type Summary = ShapeValue<typeof summaryShape>;

export const rangeShape = record('median and the central 95 % of draws', middle(), 'range');
export type Range = ShapeValue<typeof rangeShape>;

/** Whether chains agree on every number: in the diagnostics of every result that has some. */
export const agreement = {
  converged: yesNo('whether every reported number met the rules'),
  rhat_max: number('largest rank-normalised R-hat', ''),
  ess_bulk_min: number('least bulk effective sample size', 'draws'),
  ess_tail_min: number('least tail effective sample size', 'draws'),
};

const bounds = () => ({
  median: numbers('median', OF),
  lower68: numbers('lower end of the central 68 %', OF),
  upper68: numbers('upper end of the central 68 %', OF),
  lower95: numbers('lower end of the central 95 %', OF),
  upper95: numbers('upper end of the central 95 %', OF),
});

export const bandShape = record(
  'a quantity at each place',
  { mean: numbers('mean', OF), sd: numbers('standard deviation', OF), ...bounds() },
  'band',
);
export type Band = ShapeValue<typeof bandShape>;
