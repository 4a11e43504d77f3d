/** The depth of planned holes against the pipe at hand, by sums done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { targetDepths, targetProblems } from './target-depths.ts';

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
  const planned = targetDepths(four);
  assert.ok(planned.every(({ reach_m }) => Math.abs(reach_m - 11.10475) < 1e-12));
  assert.ok(planned.every(({ joints }) => joints === 4));
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

test('joints of another kind of pipe make no string longer; those of no stated kind may', () => {
  let document = withRows(newDocument('two kinds'), 'pipes', [
    { pipe: '3 in', makeup_loss: '3 cm' },
    { pipe: '2 in', makeup_loss: '5 cm' },
  ]);
  document = withRows(document, 'pipe_stock', [
    { stock_item: 'A1', pipe: '3 in', length: '3 m' },
    { stock_item: 'A2', pipe: '3 in', length: '3 m' },
    { stock_item: 'B1', pipe: '2 in', length: '3 m' },
    { stock_item: 'C1', length: '2 m' },
  ]);
  document = withRows(document, 'holes', [
    { hole: 'T1', method: 'string', state: 'planned', target_depth: '8 m', pipe: '3 in' },
    { hole: 'T2', method: 'string', state: 'planned', target_depth: '5 m', pipe: '2 in' },
  ]);
  // 3 + 3 + 2 − 2 × 0.03 − 0.8 = 7.14 m; 3 + 2 − 0.05 − 0.8 = 4.15 m. All four together would be 10.11 m.
  assert.deepEqual(
    targetDepths(parseCampaign(document).campaign).map((t) => [
      t.hole,
      t.joints,
      Number(t.reach_m.toFixed(5)),
      Number(t.short_m.toFixed(5)),
    ]),
    [
      ['T1', 3, 7.14, 0.86],
      ['T2', 2, 4.15, 0.85],
    ],
  );
  assert.match(
    targetProblems(parseCampaign(document).campaign)[0]!.expected,
    /3 joints of 3 in at hand reach/,
  );
});

test('nothing is said where no joint is recorded, or none falls short', () => {
  const deep = [{ hole: 'T1', state: 'planned', target_depth: '10 m' }];
  assert.deepEqual(targetProblems(campaignOf(deep, 0)), []);
  assert.deepEqual(targetProblems(campaignOf(deep, 4)), []);
  assert.equal(targetProblems(campaignOf(deep, 3)).length, 1);
});
