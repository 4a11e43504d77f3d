/** What is said of dates that contradict their depths, and of shared errors that moved. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { CurveResult } from '@stillstand/science/curve';
import { datesAgainstDepths, errorsThatMoved } from './curve-doubts.ts';

const pair = (upper: string, lower: string, p_lower_older: number, imposed = true) => ({
  upper,
  lower,
  p_lower_older,
  imposed,
});
const said = (...contradicting: ReturnType<typeof pair>[]): string | null =>
  datesAgainstDepths({ depth_order: { pairs: 9, contradicting } });

test('each pair once, under the point that contradicts most', () => {
  assert.equal(said(), null);
  assert.equal(datesAgainstDepths({ depth_order: null }), null);
  assert.equal(said(pair('P1', 'P2', 0.013)), 'P1 above P2 (p 0.013)');
  assert.equal(
    said(pair('P1', 'P3', 0.001), pair('P2', 'P3', 0.02), pair('P3', 'P4', 0.0001)),
    'P3 above P4 (p <0.001) and P3 below P1 and P2 (p at most 0.020)',
  );
  assert.equal(said(pair('P1', 'P2', 0, false)), 'P1 above P2 (p <0.001, left as they are)');
});

test('what points share and the curve moved, by what it is called, the farthest off in its sigma first', () => {
  const moved = (height_m: number, offset_yr: number): string | null =>
    errorsThatMoved({
      groups: [
        { group: 'datum:CD-MSL', sigma_m: 0.05, shift_m: { mean: height_m } },
        { group: 'gauge:Pier', sigma_m: 0.02, shift_m: { mean: 0.01 } },
      ],
      offsets: [{ group: 'shells', sigma_yr: 40, shift_yr: { mean: offset_yr } }],
      ages_cal_bp: Float64Array.of(0, 1000),
      level_m: { mean: Float64Array.of(0, -1) },
      rate_mm_yr: { mean: Float64Array.of(1, 1) },
      settings: { tie: { year_ce: 2000, sd_m: 0.05 } },
    } as unknown as CurveResult);
  assert.equal(moved(0.02, 10), null);
  assert.equal(
    moved(-0.24, 180),
    'the datum shift CD-MSL (−0.24 m, 4.8 times its sigma) and the reservoir offset of shells (+180 14C yr, 4.5 times its sigma)',
  );
});
