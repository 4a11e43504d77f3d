import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tideAt, tideNow } from './tide-now.ts';

const at = (clock: string): number => Date.parse(`2024-03-05T${clock}:00Z`);
/** S2 of 1 m: high half a minute past 0 and 12 h, low past 6 and 18 h. */
const constants = {
  predicted: {
    gauge: 'Pole',
    tide: { mean_m: 0, constants: [{ constituent: 'S2', amplitude_m: 1, phase_deg: 0.25 }] },
    constituents: ['S2'],
  },
  waters: [],
  needs: [],
};
const water = (clock: string, height_m: number) => ({ gauge: 'Pole', time_ms: at(clock), height_m });
const table = {
  ...constants,
  waters: [water('02:00', 0.2), water('08:00', 2.2), water('14:00', 0.4), water('20:00', 2)],
};

test('from constants: falling to the low of six, rising to the high of noon', () => {
  const ebb = tideNow(constants, at('03:00'))!;
  assert.deepEqual([ebb.state, ebb.next.kind, ebb.source], ['ebb', 'low', 'constants']);
  assert.ok(Math.abs(ebb.height_m) < 0.01 && Math.abs(ebb.next.time_ms - at('06:00')) < 60_000);
  assert.deepEqual(tideNow(constants, at('08:00'))!.state, 'flood');
  // cos 30° − cos 60° later: from 1 h after low to 2 h after it
  const { curve } = tideAt(constants, [at('07:00'), at('08:00')])!;
  assert.ok(Math.abs(curve.height_m(at('08:00')) - curve.height_m(at('07:00')) - 0.366) < 0.005);
});

test('a table comes first where it covers the hour; beyond its waters nothing is made up', () => {
  const now = tideNow(table, at('11:00'))!;
  assert.deepEqual([now.state, now.next.height_m, now.source], ['ebb', 0.4, 'table']);
  // half way in time between a high of 2.2 and a low of 0.4
  assert.ok(Math.abs(now.height_m - 1.3) < 1e-9);
  assert.equal(tideNow(table, at('21:00'))!.source, 'constants');
  assert.equal(tideNow({ ...table, predicted: null }, at('21:00')), null);
  const gap = { ...table, predicted: null, waters: [water('01:00', 0.2), water('20:00', 2)] };
  assert.equal(tideNow(gap, at('11:00')), null);
});
