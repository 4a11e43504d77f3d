import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { cableTape } from './cable.ts';

const settings = { margin_m: 0.3, mark_sigma_m: 0.02, joint_sigma_m: 0.002 };
const base = { to_sediment_m: 6, collar_to_shoe_m: 9, joints: 3, interval_m: 0.5, zero_m: 0, settings };

test('tape of a sampler that holds 1.3 m: zero, sediment, each half metre, full, stop', () => {
  const tape = cableTape({ ...base, capacity_m: 1.3 });
  assert.deepEqual(
    tape.marks.map((m) => [m.is, m.tip_m.toFixed(2)]),
    [
      ['zero', '0.00'],
      ['sediment', '6.00'],
      ['between', '6.50'],
      ['between', '7.00'],
      ['full', '7.30'],
      ['between', '7.50'],
      ['between', '8.00'],
      ['between', '8.50'],
      ['stop', '8.70'],
    ],
  );
  assert.ok(Math.abs(tape.most_m - 1.3) < 1e-12);
  assert.equal(cableTape({ ...base, capacity_m: null }).capacity_assumed, true);
});

test('a tape that reads 0.10 m at the collar reads 0.10 m more at every mark, and is called off', () => {
  const tape = cableTape({ ...base, capacity_m: 3, zero_m: 0.1 });
  assert.equal(tape.zero_off, true);
  for (const mark of tape.marks) assert.ok(Math.abs(mark.reads_m - mark.tip_m - 0.1) < 1e-12);
  assert.equal(cableTape({ ...base, capacity_m: 3, zero_m: 0.03 }).zero_off, false);
});

test('no mark below the margin or above the sediment, in order, whatever the hole (seed 4256)', () => {
  const mm = (min: number, max: number) => fc.integer({ min, max }).map((v) => v / 1000);
  fc.assert(
    fc.property(
      mm(0, 30_000),
      mm(500, 30_000),
      mm(200, 2000),
      mm(200, 3000),
      (sediment, shoe, interval, holds) => {
        const tape = cableTape({
          ...base,
          to_sediment_m: sediment,
          collar_to_shoe_m: shoe,
          interval_m: interval,
          capacity_m: holds,
        });
        assert.equal(tape.refused, !(sediment < shoe - tape.margin_m));
        const [zero, ...marks] = tape.marks;
        assert.equal(zero!.tip_m, 0);
        if (tape.refused) assert.equal(marks.length, 0);
        else {
          assert.equal(marks[0]!.is, 'sediment');
          assert.equal(marks.at(-1)!.is, 'stop');
        }
        let last = sediment;
        for (const mark of marks) {
          assert.ok(mark.tip_m >= last - 1e-9 && mark.clearance_m >= tape.margin_m - 1e-9);
          last = mark.tip_m;
        }
        assert.ok(tape.most_m <= holds + 1e-12);
      },
    ),
    { seed: 4256, numRuns: 300 },
  );
});
