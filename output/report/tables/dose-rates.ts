/** Dose rates computed from contents: what each is made of, and where its error is from. */
import { type DoseRateResult, resultsShape } from '@stillstand/campaign/results';
import { atTwoSigma, shownAs } from './described.ts';
import { itself, table } from './table.ts';

const { dose_rates } = resultsShape.fields;
/** To 0.0001 Gy/ka: a ten thousandth of common rates. */
const decimals = 4;

export const DOSE_RATES = table({
  file: 'dose_rates.csv',
  entry: 'dose_rates[]',
  about: dose_rates.of.about,
  shape: dose_rates.of,
  rows: (results) => results.dose_rates,
  read: itself<DoseRateResult>,
  plan: {
    shown: {
      rate_gy_ka: shownAs('rate_gy_ka', { decimals }),
      rate_sigma_gy_ka: atTwoSigma('rate_gy_ka_2sigma', decimals),
      shared_sigma_gy_ka: atTwoSigma('shared_gy_ka_2sigma', decimals),
      alpha_gy_ka: shownAs('alpha_gy_ka', { decimals }),
      beta_gy_ka: shownAs('beta_gy_ka', { decimals }),
      gamma_gy_ka: shownAs('gamma_gy_ka', { decimals }),
      cosmic_gy_ka: shownAs('cosmic_gy_ka', { decimals }),
      internal_gy_ka: shownAs('internal_gy_ka', { decimals }),
    },
  },
  leftOut: {
    errors: 'in results.json; the largest in the report',
    figures: 'in results.json and in the report',
  },
});
