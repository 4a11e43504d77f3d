/** The depth of planned holes against the pipe at hand, by sums done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { targetDepths, targetProblems } from './index.ts';

function campaignOf(holes: Record<string, string>[], joints: number) {
  let document = withRows(
    newDocument('targets'),
    'holes',
    holes.map((hole) => ({ method: 'string', ...hole })),
  );
  if (joints > 0)
    document = withRows(
      document,
      'pipe_stock',
      Array.from({ length: joints }, (_, i) => ({ stock_item: `A${i + 1}`, item: 'joint', length: '3 m' })),
    );
  return parseCampaign(document).campaign;
}

test('what the joints at hand reach, and which planned hole goes below it', () => {
  const holes = [
    { hole: 'T1', state: 'planned', target_depth: '10 m' },
    { hole: 'T2', state: 'planned', target_depth: '40 ft' },
    { hole: 'T3', state: 'finished', target_depth: '30 m' },
    { hole: 'T4', state: 'planned', target_depth: '30 m', method: 'hand' },
    { hole: 'T5', state: 'planned' },
  ];
  const four = campaignOf(holes, 4);
  // 4 × 3.00 − 3 × 0.03175 − 0.80 = 11.10475 m; 40 ft are 12.192 m.
  const { reach_m, joints, holes: planned } = targetDepths(four, { makeup_loss_m: 0.03175, stick_up_m: 0.8 });
  assert.ok(Math.abs(reach_m - 11.10475) < 1e-12);
  assert.equal(joints, 4);
  assert.deepEqual(
    planned.map(({ hole, short_m }) => [hole, Number(short_m.toFixed(5))]),
    [
      ['T2', 1.08725],
      ['T1', 0],
    ],
  );
  const [problem, ...others] = targetProblems(four);
  assert.deepEqual(others, []);
  assert.deepEqual([problem!.code, problem!.label, problem!.found], ['target-below-pipe', 'T2', '12.19 m']);
  // What is missing is rounded up, what is reached down.
  assert.match(problem!.expected, /4 joints at hand reach: 11\.10 m with 0\.80 m/);
  assert.match(problem!.fix, /for 1\.09 m more/);
});

test('nothing is said where no joint is recorded, or none falls short', () => {
  const deep = [{ hole: 'T1', state: 'planned', target_depth: '10 m' }];
  assert.deepEqual(targetProblems(campaignOf(deep, 0)), []);
  assert.deepEqual(targetProblems(campaignOf(deep, 4)), []);
  assert.equal(targetProblems(campaignOf(deep, 3)).length, 1);
});
