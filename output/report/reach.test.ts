import assert from 'node:assert/strict';
import { test } from 'node:test';
import { curveOf, withCurve } from '@stillstand/campaign/results';
import { isReached, UNREACHED } from '@stillstand/output/words';
import { tinyResults } from './fixtures/results.ts';
import { headline } from './headline.ts';
import { reportHtml } from './report.tsx';

const curve = curveOf(tinyResults())!;
const [index] = curve.points.filter((point) => point.kind === 'index');
const aged = (lower95: number, upper95: number, kind: 'index' | 'marine' = 'index') => ({
  points: [{ ...index!, kind, age_cal_bp: { ...index!.age_cal_bp, lower95, upper95 } }],
});

test('an interval is reached where the 95 % of an index point overlaps it; limits do not reach', () => {
  const interval = { older_cal_bp: 2000, younger_cal_bp: 1000 };
  assert.ok(isReached(aged(1400, 1600), interval));
  assert.ok(isReached(aged(1990, 2100), interval));
  assert.ok(isReached(aged(800, 1000), interval));
  assert.ok(isReached(aged(500, 3000), interval));
  assert.ok(!isReached(aged(2300, 2600), interval));
  assert.ok(!isReached(aged(700, 990), interval));
  assert.ok(!isReached(aged(1400, 1600, 'marine'), interval));
  assert.ok(!isReached({ points: [] }, interval));
});

test('a rate without a point in its interval says so in the headline and wherever the report prints it', () => {
  const count = (points: typeof curve.points): { lines: number; page: number } => {
    const results = withCurve(tinyResults(), { ...curve, points });
    const html = reportHtml(results, [], { fontCss: '' });
    return {
      lines: headline(results).filter((line) => line.startsWith('Rate') && line.includes(UNREACHED)).length,
      page: html.split(UNREACHED).length - 1,
    };
  };
  assert.deepEqual(count(curve.points), { lines: 0, page: 0 });
  // The answer, and both intervals in each of two tables.
  assert.deepEqual(count([]), { lines: 2, page: 5 });
  assert.deepEqual(count(aged(2300, 2600).points), { lines: 2, page: 5 });
});
