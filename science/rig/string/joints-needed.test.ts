import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { jointsNeeded } from './joints-needed.ts';

test('8 m below ground with 1 m free, threads of 0.04 m: three of 3.05 m and the 1.5 m one', () => {
  const at_hand = [
    ...[1, 2, 3, 4].map((i) => ({ label: `A${i}`, length_m: 3.05 })),
    { label: 'B', length_m: 1.5 },
  ];
  const input = { target_depth_m: 8, stick_up_m: 1, makeup_loss_m: 0.04, collar_to_shoe_m: 0, at_hand };
  const needed = jointsNeeded(input);
  // 3 × 3.05 − 2 × 0.04 = 9.07
  assert.deepEqual(
    needed.joints.map((j) => j.label),
    ['A1', 'A2', 'A3'],
  );
  assert.ok(Math.abs(needed.stick_up_m - 1.07) < 1e-9);
  const deeper = jointsNeeded({ ...input, target_depth_m: 9 });
  // one more metre: the short joint does it, 9.07 + 1.46
  assert.equal(deeper.joints.at(-1)!.label, 'B');
  assert.ok(Math.abs(deeper.collar_to_shoe_m - 10.53) < 1e-9);
  const short = jointsNeeded({ ...input, target_depth_m: 20 });
  assert.ok(Math.abs(short.short_m - (21 - (4 * 3.05 + 1.5 - 4 * 0.04))) < 1e-9);
  assert.equal(jointsNeeded({ ...input, collar_to_shoe_m: 9.5 }).joints.length, 0);
});

test('no fewer joints would do: against every choice of them (seed 4255)', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 500, max: 6000 }), { maxLength: 8 }),
      fc.integer({ min: 0, max: 60 }),
      fc.integer({ min: 0, max: 3000 }),
      fc.integer({ min: 500, max: 20_000 }),
      (lengths, loss, have, target) => {
        const answer = jointsNeeded({
          target_depth_m: target / 1000,
          stick_up_m: 0.5,
          makeup_loss_m: loss / 1000,
          collar_to_shoe_m: have / 1000,
          at_hand: lengths.map((mm, i) => ({ label: `${i}`, length_m: mm / 1000 })),
        });
        let fewest = Number.POSITIVE_INFINITY;
        for (let set = 0; set < 2 ** lengths.length; set++) {
          let sum = have;
          let count = 0;
          lengths.forEach((mm, i) => {
            if ((set >> i) % 2 === 0) return;
            sum += mm - (sum === 0 ? 0 : loss);
            count++;
          });
          if (sum >= target + 500 - 1e-6) fewest = Math.min(fewest, count);
        }
        if (fewest === Number.POSITIVE_INFINITY) assert.ok(answer.short_m > 0);
        else {
          assert.equal(answer.joints.length, fewest);
          assert.equal(answer.short_m, 0);
        }
        assert.equal(new Set(answer.joints.map((j) => j.label)).size, answer.joints.length);
      },
    ),
    { seed: 4255, numRuns: 200 },
  );
});
