import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { dateAt } from './age-depth/drawing.tsx';
import { ageDepthLayout } from './age-depth/layout.ts';
import { ageDepthLegend } from './age-depth/legend.tsx';
import { twoHistories } from './age-depth/two-histories.ts';
import { agesAcrossHiatus, agesInDoubt, agesTogether, agesTwice, manyAges } from './fixtures/age-depth.ts';
import { oneHole } from './fixtures/column.ts';

const layoutOf = (results: Results, width = 500, options = {}) =>
  ageDepthLayout(results, results.holes[0]!, { width }, options);

test('each date is in place, in doubt, aside or rejected, as history and status say', () => {
  const states = (results: Results, options = {}) =>
    layoutOf(results, 500, options).dates.map(({ date, state }) => [date.lab_code, state]);
  assert.deepEqual(Object.fromEntries(states(agesInDoubt)), {
    'A-1': 'in place',
    'A-2': 'in doubt',
    'A-3': 'rejected',
    'A-4': 'in place',
    'A-5': 'in place',
    'A-6': 'in place',
  });
  const { 'A-5': asAside, 'A-9': far } = Object.fromEntries(states(agesAcrossHiatus));
  assert.deepEqual([asAside, far], ['aside', 'rejected']);
  // A history of the former dates does not know of a date that was accepted since.
  assert.equal(Object.fromEntries(states(agesAcrossHiatus, { isFormer: true }))['A-5'], 'in place');
});

test('a rejected date far from all others presses nothing together: it is an arrow at the edge', () => {
  const { far, time } = layoutOf(agesAcrossHiatus);
  assert.deepEqual(
    [...far].map(({ lab_code }) => lab_code),
    ['A-9'],
  );
  assert.ok(time.from < 16_000, `the axis begins at ${time.from}`);
});

test('a hiatus lies at the base of the unit it is below; of a unit that is gone it is left out', () => {
  const [hiatus] = layoutOf(agesAcrossHiatus).hiatuses;
  assert.deepEqual([hiatus?.id, hiatus?.depth_m], ['6', 8.2]);
  const holes = agesAcrossHiatus.holes.map((hole) => ({ ...hole, units: [] }));
  assert.deepEqual(layoutOf({ ...agesAcrossHiatus, holes }).hiatuses, []);
});

test('sixty dates have sixty codes, none over another', () => {
  const ys = layoutOf(manyAges).labels.map(({ y }) => y);
  assert.equal(ys.length, 61);
  assert.ok(ys.every((y, i) => i === 0 || y - ys[i - 1]! > 7));
});

test('a narrow screen leaves out the accumulation rate first, then the codes; a press finds its date all the same', () => {
  const wide = layoutOf(agesTogether, 400);
  const tablet = layoutOf(agesTogether, 270);
  const phone = layoutOf(agesTogether, 190);
  assert.deepEqual(
    [wide, tablet, phone].map(({ rateLane, codesX }) => [rateLane !== null, codesX !== null]),
    [
      [true, true],
      [false, true],
      [false, false],
    ],
  );
  for (const layout of [wide, phone]) {
    for (const { date, depth_m } of layout.dates) {
      const [x, y] = [layout.time(date.median_cal_bp), layout.depth(depth_m) - 4];
      assert.equal(dateAt(layout, x, y, 12), date.row_id);
    }
    assert.equal(dateAt(layout, layout.time(layout.time.to), layout.depth(13.9), 12), null);
  }
  const label = wide.labels.find((each) => each.kind === 'date')!;
  assert.equal(dateAt(wide, wide.codesX! + 10, label.y, 12), label.placed.date.row_id);
});

test('a hole without a dated depth, and one whose dates are all rejected, have a drawing and no history', () => {
  const none = layoutOf({ ...oneHole, dates: [] });
  assert.deepEqual([none.dates.length, ageDepthLegend(none)], [0, []]);
  const dates = oneHole.dates.map((date) => ({ ...date, status: 'rejected' as const }));
  const rejected = layoutOf({ ...oneHole, dates });
  assert.deepEqual(
    ageDepthLegend(rejected).map(({ kind }) => kind),
    ['rejected'],
  );
  assert.ok(rejected.time.from > 8_700);
});

test('ages are written as cal BP or as years BCE and CE on one scale', () => {
  const bp = layoutOf(agesTogether);
  const ce = layoutOf(agesTogether, 500, { ages: 'ce' });
  // 2450 cal BP is 501 BCE: there is no year 0.
  assert.ok(Math.abs(bp.written(2450) - ce.written(-501)) < 0.1);
});

test('two histories are two entries of the legend, and the dates they differ on are named', () => {
  const layout = layoutOf(agesTwice);
  const words = ageDepthLegend(layout).map((item) => item.words);
  assert.ok(words.includes('the likelier history, 62 %') && words.includes('the other history, 38 %'));
  assert.equal(
    twoHistories(layout.history!),
    'Two histories remain possible, 62 and 38 %: they differ on A-2, A-6',
  );
});
