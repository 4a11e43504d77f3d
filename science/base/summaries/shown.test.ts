import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '../chains/random.ts';
import { atLeast, atMost, minuteAtLeast, minuteAtMost, type TapeUnit, tapeLength } from './shown.ts';

/** What a person reads off the words, metres. */
function read(words: string): number {
  const sign = words.startsWith('−') ? -1 : 1;
  const [, feet = '0'] = /(\d+) ft/.exec(words) ?? [];
  const [, whole = '0'] = /(?:^|ft |−)(\d+)(?: \d\/\d)? in/.exec(words) ?? [];
  const [, top = '0', under = '1'] = /(\d)\/(\d) in/.exec(words) ?? [];
  const metres = /([\d.]+) m$/.exec(words)?.[1] ?? '0';
  const centimetres = /(\d+) cm$/.exec(words)?.[1] ?? '0';
  const inches = Number(feet) * 12 + Number(whole) + Number(top) / Number(under);
  return sign * (Number(metres) + Number(centimetres) / 100 + inches * 0.0254);
}

/** The noise of binary numbers that is allowed: 1e-8 of the coarsest step. */
const NOISE_M = 1e-8;

test('a length shown at most is never longer than it is, shown at least never shorter, in m, cm and ft: seed 41', () => {
  const stream = randomStream(41);
  for (let i = 0; i < 20_000; i++) {
    const m = (stream.uniform() - 0.3) * 10 ** Math.floor(stream.uniform() * 4 - 2);
    for (const unit of ['m', 'cm', 'ft'] as TapeUnit[]) {
      const step = unit === 'ft' ? 0.0254 / 4 : 0.01;
      const most = read(tapeLength(m, unit, 'at most'));
      const least = read(tapeLength(m, unit, 'at least'));
      assert.ok(
        most <= m + NOISE_M && most > m - step - NOISE_M,
        `${m} at most ${tapeLength(m, unit, 'at most')}`,
      );
      assert.ok(
        least >= m - NOISE_M && least < m + step + NOISE_M,
        `${m} at least ${tapeLength(m, unit, 'at least')}`,
      );
      assert.ok(Math.abs(read(tapeLength(m, unit)) - m) <= step / 2 + NOISE_M);
    }
    for (const decimals of [0, 1, 2, 3]) {
      assert.ok(atMost(m, decimals) <= m + NOISE_M && atMost(m, decimals) > m - 10 ** -decimals - NOISE_M);
      assert.ok(atLeast(m, decimals) >= m - NOISE_M && atLeast(m, decimals) < m + 10 ** -decimals + NOISE_M);
    }
    const time_ms = Math.floor(m * 1e9);
    assert.ok(minuteAtMost(time_ms) <= time_ms && minuteAtLeast(time_ms) >= time_ms);
    assert.ok(minuteAtLeast(time_ms) - minuteAtMost(time_ms) <= 60_000);
  }
});

test('a stop mark of 2.866 m is no 2.87; what is whole stays whole; nothing is minus zero', () => {
  assert.equal(tapeLength(2.866, 'm', 'at most'), '2.86 m');
  assert.equal(tapeLength(2.866, 'cm', 'at most'), '286 cm');
  // 2.866 m is 112.83 in
  assert.equal(tapeLength(2.866, 'ft', 'at most'), '9 ft 4 3/4 in');
  assert.equal(tapeLength(2.866, 'ft', 'at least'), '9 ft 5 in');
  for (let cm = -500; cm <= 500; cm++) {
    assert.equal(atMost(cm / 100, 2), cm / 100 + 0);
    assert.equal(atLeast(cm / 100, 2), cm / 100 + 0);
    assert.equal(tapeLength(cm / 100, 'm', 'at most'), tapeLength(cm / 100, 'm', 'at least'));
  }
  assert.equal(tapeLength(-0.034, 'm', 'at most'), '−0.04 m');
  assert.equal(tapeLength(-0.004, 'm', 'at least'), '0.00 m');
  assert.ok(Object.is(atLeast(-0.004, 2), 0));
  assert.equal(tapeLength(0.25 * 0.0254, 'ft'), '1/4 in');
  assert.equal(tapeLength(0, 'ft'), '0 in');
  assert.equal(tapeLength(0.3048, 'ft'), '1 ft 0 in');
});

test('access that opens at 06:55.6 is shown to open at 06:56, and to close at 06:55', () => {
  const at = Date.parse('2023-02-06T06:55:36Z');
  assert.equal(new Date(minuteAtLeast(at)).toISOString().slice(11, 16), '06:56');
  assert.equal(new Date(minuteAtMost(at)).toISOString().slice(11, 16), '06:55');
});
