/** Which of two histories the dates part, in words. That there are two is found by science/dating (checks/age-depth). */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign } from '@stillstand/campaign/document';
import type { HoleHistory } from '@stillstand/campaign/results';
import { disagreements } from './disagreement.ts';

const { campaign } = parseCampaign(newDocument('ages'));

/** Two histories of a hole, each by how probably each of three dates is out of place in it. */
const parted = (likelier: number[], other: number[]): HoleHistory =>
  ({
    hole: 'T2',
    clocks: [],
    diagnostics: { converged: true, sweeps: 1700 },
    modes: [
      { probability: 0.77, clocks: likelier.map(clock) },
      { probability: 0.23, clocks: other.map(clock) },
    ],
  }) as unknown as HoleHistory;
const clock = (outlier_probability: number, i: number) => ({
  id: `L${i + 1}`,
  age_cal_bp: 0,
  outlier_probability,
});

test('two histories are said with their probabilities and the dates that part them', () => {
  const said = (result: HoleHistory): string[] =>
    disagreements(campaign, result).map(({ found, fix }) => `${found}. ${fix.split('.')[0]}`);
  const two = 'two histories of T2 possible, 0.77 and 0.23 probable';
  assert.deepEqual(said(parted([0, 0.1, 0.9], [0, 0.9, 0.1])), [
    `${two}. They differ in whether L2, L3 date their layers`,
  ]);
  assert.deepEqual(said(parted([0, 0, 0], [0, 0.2, 0])), [
    `${two}. They differ in the years that its dates are read as`,
  ]);
  assert.deepEqual(said({ ...parted([0], [0]), modes: [] }), []);
});

test('ages that have not converged are said to be of no use', () => {
  const one = { ...parted([0], [0]), modes: [] };
  const diagnostics = { ...one.diagnostics, converged: false, sweeps: 96_200 };
  assert.deepEqual(
    disagreements(campaign, { ...one, diagnostics }).map(({ code, severity, found }) => [
      code,
      severity,
      found,
    ]),
    [['ages-not-converged', 'warning', 'ages of T2 against depth have not converged after 96200 sweeps']],
  );
});
