/** What a figure says of the draws behind it, on one line; what of them has not converged is in the report's table. */
import { printed } from '@stillstand/output/words';
import type { CurveResult } from '@stillstand/science/curve';

type Diagnostics = Pick<CurveResult['diagnostics'], 'rhat_max' | 'ess_bulk_min' | 'ess_tail_min'>;

/** "R-hat 1.004, at least 744 effective draws": the worst of all numbers. */
export const diagnosticsInWords = ({ rhat_max, ess_bulk_min, ess_tail_min }: Diagnostics): string =>
  `R-hat ${printed(rhat_max, 3)}, at least ${printed(Math.floor(Math.min(ess_bulk_min, ess_tail_min)))} effective draws`;

export const notConverged = (diagnostics: Diagnostics): string =>
  `Not converged: the hatched bands and rates are not to be used (${diagnosticsInWords(diagnostics)})`;
