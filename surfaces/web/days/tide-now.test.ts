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

test('by a table: the kind of the next water is that of the one before it, and at a water it is the one after', () => {
  // a low that is higher than the high of another tide
  const waters = [water('00:00', 3), water('06:00', 2.5), water('12:00', 3.1)];
  const high = { ...table, predicted: null, waters };
  assert.deepEqual(
    [tideNow(high, at('03:00'))!.state, tideNow(high, at('03:00'))!.next.kind],
    ['ebb', 'low'],
  );
  assert.deepEqual(
    [tideNow(high, at('06:00'))!.state, tideNow(high, at('06:00'))!.next.time_ms],
    ['flood', at('12:00')],
  );
});

test('a table ends with its waters: before the first and after the last nothing, and 16 hours are a gap', () => {
  const of = (waters: ReturnType<typeof water>[], clock: string) =>
    tideNow({ ...table, predicted: null, waters }, at(clock));
  assert.equal(of(table.waters, '01:59'), null);
  // where there are constants they take over, on both sides
  assert.equal(tideNow(table, at('01:59'))!.source, 'constants');
  assert.equal(tideAt(table, [at('01:59'), at('03:00')])!.source, 'constants');
  assert.equal(of(table.waters, '20:00'), null);
  const day = (hours: number) => [
    water('02:00', 0.2),
    { ...water('02:00', 2), time_ms: at('02:00') + hours * 3_600_000 },
  ];
  assert.equal(of(day(16), '03:00'), null);
  // one tide a day: the next water may be 15 hours off
  const slow = of(day(15.9), '03:00')!;
  assert.equal(slow.state, 'flood');
  assert.ok(slow.height_m > 0.2 && slow.height_m < 0.3, `${slow.height_m}`);
});

test('from the constants of one tide a day the next water is found too', () => {
  const predicted = {
    ...constants.predicted,
    tide: { mean_m: 0, constants: [{ constituent: 'K1', amplitude_m: 1, phase_deg: 0 }] },
  };
  for (let hour = 0; hour < 24; hour++) {
    const clock = `${String(hour).padStart(2, '0')}:00`;
    const now = tideNow({ ...constants, predicted }, at(clock));
    assert.ok(now !== null && now.next.time_ms > at(clock), clock);
  }
});
