/** What is said of models of the rate. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type RatesCompared, SMOOTH_RATE } from '@stillstand/science/curve';
import {
  abruptChange,
  rateModelInWords,
  rateName,
  ratesVerdict,
  saidOf,
  shortestSwing,
} from './rate-model.ts';

const stepwise = { ...SMOOTH_RATE, kind: 'stepwise' as const, changes: 2, jump_sd_m: 1.5 };

test('a model by name, short and whole', () => {
  assert.equal(rateName(SMOOTH_RATE), 'smooth');
  assert.equal(rateName(stepwise), 'stepwise, 2 changes, jumps');
  assert.equal(
    rateName({ ...SMOOTH_RATE, changes: 2, slowing_mm_yr_ka: 0.5 }),
    'smooth, up to 2 breaks, slowing',
  );
  assert.equal(
    rateModelInWords(stepwise),
    'a stepwise rate, 2 changes, each with a jump of the level (1 sd 1.5 m)',
  );
});

const row = (
  rate_model: RatesCompared[number]['rate_model'],
  behind: number | null,
  undecided: RatesCompared[number]['undecided'],
  converged = true,
): RatesCompared[number] => ({
  rate_model,
  converged,
  score: -(behind ?? 0),
  score_mcse: 0.1,
  behind,
  behind_se: behind === null ? null : 1,
  undecided,
  rate_mm_yr: null,
});
const constant = { ...SMOOTH_RATE, kind: 'constant' as const };

test('what the scores come to: decided, not decided, and what did not converge', () => {
  assert.equal(ratesVerdict([]), 'No model of the rate was compared.');
  const first = row(SMOOTH_RATE, null, null);
  assert.equal(ratesVerdict([first, row(constant, 12, null)]), 'The data decide for one model: smooth.');
  assert.equal(
    ratesVerdict([first, row(stepwise, 2, 'below 4 units'), row(constant, 12, null)]),
    'The data do not decide between 2 models: smooth; stepwise, 2 changes, jumps. They decide against 1.',
  );
  const lost = row(stepwise, 5, 'not converged', false);
  assert.equal(
    ratesVerdict([first, lost, row(constant, 12, null)]),
    'The data decide for one model: smooth. 1 model did not converge and is not compared.',
  );
  assert.equal(saidOf(lost), 'not converged');
  const best = row(stepwise, null, null, false);
  assert.match(
    ratesVerdict([best, row(SMOOTH_RATE, 1, 'not converged')]),
    /^The data do not decide: the best score/,
  );
  assert.equal(saidOf(row(SMOOTH_RATE, 1, 'not converged')), 'the best did not converge');
});

test('that a smooth rate does not fit is said from a ratio of e^1.5 on', () => {
  assert.equal(abruptChange({ one_break: null }), null);
  assert.equal(abruptChange({ one_break: { log_evidence_ratio: 1.5, age_cal_bp: 4000 } }), null);
  assert.match(
    abruptChange({ one_break: { log_evidence_ratio: 1.6, age_cal_bp: 4012 } })!,
    /^A smooth rate does not fit: one abrupt change near 4,01\d cal BP/,
  );
});

test('how short a swing the index points could show', () => {
  const at = (median: number, kind: 'index' | 'marine' = 'index') => ({ kind, age_cal_bp: { median } });
  const of = (points: object[], rate_model = SMOOTH_RATE) =>
    shortestSwing({ points, settings: { rate_model } } as unknown as Parameters<typeof shortestSwing>[0]);
  // Nine points over 8,000 years: a thousand apart.
  const nine = Array.from({ length: 9 }, (_, k) => at(1000 * k));
  assert.match(of([...nine, at(9000, 'marine')])!, /shorter than about 2,000 yr .* these 9 index points/);
  assert.equal(of(nine.slice(0, 2)), null);
  assert.equal(of(nine, constant), null);
});
