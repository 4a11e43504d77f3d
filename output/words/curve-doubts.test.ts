/** What is said of dates that contradict their depths. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { datesAgainstDepths } from './curve-doubts.ts';

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
