import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import type { Registration } from '@stillstand/science/rig';
import { inSituDepth } from './in-situ.ts';
import { allAtTopModel, uniformModel } from './rival.ts';

const pin = (penetration_m: number, entered_m: number, sigma_m = 0.01, place_sigma_m = 0): Registration => ({
  kind: 'pin',
  row_id: `pin ${penetration_m}`,
  penetration_m,
  entered_m,
  sigma_m,
  place_sigma_m,
});

test('rivals: their own formula, and how badly the soundings reject them', () => {
  const registration = [pin(1, 0.55), pin(2, 1.35), pin(3, 2.3), pin(4, 3.28)];
  const input = { from_m: 0, penetration_m: 4, registration };
  const uniform = uniformModel(input);
  const top = allAtTopModel(input);
  assert.ok(Math.abs(inSituDepth(uniform, 1.64).value - 2) < 1e-9);
  assert.ok(Math.abs(inSituDepth(top, 1.28).value - 2) < 1e-9);
  assert.deepEqual(top.not_represented.length, 1);
  // independent errors of 0.01: residuals in sd from the best straight line through 0, by hand
  const read = [0.55, 1.35, 2.3, 3.28];
  const recovery = read.reduce((s, e, i) => s + e * (i + 1), 0) / 30;
  const chi = read.reduce((s, e, i) => s + ((e - recovery * (i + 1)) / 0.01) ** 2, 0);
  assert.ok(Math.abs(uniform.misfit!.chi_square - chi) < 1e-6);
  assert.equal(uniform.misfit!.degrees, 3);
  assert.ok(uniform.misfit!.rejected_sd > 5 && top.misfit!.rejected_sd > 5);
  assert.ok(Math.abs(top.misfit!.worst_m - 0.27) < 1e-9);
});

/** Ten soundings, with runs between, of ground where a rival is true; errors drawn part by part. */
function simulated(entered: (penetration_m: number) => number, seed: number): Registration[] {
  const stream = randomStream(seed);
  const registration: Registration[] = [];
  let removed = 0;
  for (let j = 1; j <= 10; j++) {
    const last = removed + 0.01 * stream.normal();
    registration.push(pin(0.6 * j, entered(0.6 * j) + last + 0.005 * stream.normal(), 0.01, 0.005));
    if (j % 3 === 0) {
      removed = last + 0.01 * stream.normal();
      registration.push({
        kind: 'run',
        row_id: `run ${j}`,
        entered_bottom_m: entered(0.6 * j) - 0.4,
        sigma_m: 0.01,
        from: 'soundings',
      });
    }
  }
  return registration;
}

test('a rival that is true is rejected as a standard normal says: mean 0, sd 1 (seeds 1–1000)', () => {
  for (const [model, truth] of [
    [uniformModel, (p: number) => 0.8 * p],
    [allAtTopModel, (p: number) => Math.max(0, p - 0.5)],
  ] as const) {
    let sum = 0;
    let squares = 0;
    for (let seed = 1; seed <= 1000; seed++) {
      const input = { from_m: 0, penetration_m: 6, registration: simulated(truth, seed) };
      const sd = model(input).misfit!.rejected_sd;
      sum += sd;
      squares += sd * sd;
    }
    // mean within 4 standard errors; sd within 10 % (its own error is 2 %)
    assert.ok(Math.abs(sum / 1000) < 4 / Math.sqrt(1000), `${sum / 1000}`);
    assert.ok(Math.abs(Math.sqrt(squares / 1000) - 1) < 0.1, `${Math.sqrt(squares / 1000)}`);
  }
});
