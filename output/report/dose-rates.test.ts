/** Dose rates computed from contents in the report: what they are made of, and which figures are from memory. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DoseRateResult, Results } from '@stillstand/campaign/results';
import { tinyResults } from './fixtures/results.ts';
import { reportHtml } from './report.tsx';
import { DOSE_RATES } from './tables/dose-rates.ts';

const plain = (html: string): string => html.replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ');

const RATE: DoseRateResult = {
  row_id: 'd1',
  lab_code: 'OSL-1',
  sample: 'A',
  rate_gy_ka: 0.8154,
  rate_sigma_gy_ka: 0.0412,
  shared_sigma_gy_ka: 0.0301,
  alpha_gy_ka: 0,
  beta_gy_ka: 0.39,
  gamma_gy_ka: 0.2654,
  cosmic_gy_ka: 0.16,
  internal_gy_ka: 0,
  factors: 'guerin2011',
  errors: [{ of: 'water', sigma_gy_ka: 0.03, shared_sigma_gy_ka: 0.03 }],
  figures: [
    { name: 'dose factors', source: 'Somebody 2011', from_memory: true },
    { name: 'error of the dose factors', source: 'common practice', from_memory: false },
  ],
};
/** With a date, so that ages are spoken of. */
const withRate: Results = { ...tinyResults(), dose_rates: [RATE] };

test('the report has each rate with its parts, and names the figures from memory', () => {
  const text = plain(reportHtml(withRate, [], { fontCss: '' }));
  assert.match(text, /OSL-1 0\.815 ±0\.041 ±0\.030 0\.000 0\.390 0\.265 0\.160 0\.000 water/);
  assert.match(
    text,
    /One dose rate was computed from contents .* with the factors guerin2011 \(dose factors: Somebody 2011, from memory and not yet compared with the print; error of the dose factors: common practice\)/,
  );
});

test('a campaign without such rates has no word of them, and an empty table', () => {
  assert.doesNotMatch(plain(reportHtml(tinyResults(), [], { fontCss: '' })), /[Dd]ose rate/);
  assert.equal(DOSE_RATES.csv(tinyResults()).trim().split('\n').length, 1);
  assert.match(DOSE_RATES.csv(withRate), /OSL-1,A,0\.8154,0\.0824,0\.0602,/);
});
