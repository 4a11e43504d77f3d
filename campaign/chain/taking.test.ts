/** Where a planned sample is cut, on cores whose place in the ground is a sum by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Core } from './cores.ts';
import { cutOf, cutReach, cutWords, takenCells } from './taking.ts';

/** A core of so many metres that lies squeezed in the ground: half a metre of core for each metre of ground. */
const squeezed = (run: string, from_m: number, length_m: number, fall_in_m = 0): Core => {
  const depthAt = (x: number): number => from_m + 2 * (x - fall_in_m);
  return {
    ...{ basis: 'run', run, name: `run ${run}`, length_m, fall_in_m, entered: null, depthAt },
    depth: { top_m: depthAt(fall_in_m), bottom_m: depthAt(length_m) },
    enteredAt: () => null,
  };
};
// R3 lies from 3.00 to 5.00 m, under 0.10 m of fall-in; R4 from 5.00 to 6.00 m.
const cores = [squeezed('R3', 3, 1.1, 0.1), squeezed('R4', 5, 0.5)];
const cut = (top_m: number | null, bottom_m: number | null) => {
  const found = cutOf({ top_m, bottom_m }, cores);
  return found === null ? null : cutWords(found, 'm');
};

test('a planned depth is cut where its core has it', () => {
  // (3.60 − 3.00) ÷ 2 + 0.10 = 0.40; (3.64 − 3.00) ÷ 2 + 0.10 = 0.42.
  assert.equal(cut(3.6, 3.64), 'run R3, 0.40–0.42 m');
  // One depth: 1 cm of ground above and below, half of it in the core.
  assert.deepEqual(
    [cutOf({ top_m: 4, bottom_m: null }, cores)!].map(({ core, top_m, bottom_m }) => [
      core.run,
      top_m.toFixed(4),
      bottom_m.toFixed(4),
    ]),
    [['R3', '0.5950', '0.6050']],
  );
  // Over the end of a core, where most of it lies.
  assert.equal(cut(4.98, 5.1), 'run R4, 0.00–0.05 m');
  assert.equal(cut(6.2, 6.3), null);
  assert.equal(cut(null, null), null);
  // Fall-in is no place to cut.
  assert.equal(cut(2.9, 3.04), 'run R3, 0.10–0.12 m');
});

test('the row a planned sample becomes', () => {
  const planned = { sample: 'S3', hole: 'T1', material: 'peat', identifier: null };
  assert.deepEqual(takenCells(planned, cutOf({ top_m: 3.6, bottom_m: 3.64 }, cores), 'cm'), {
    sample: 'S3',
    hole: 'T1',
    material: 'peat',
    depth_basis: 'run',
    run: 'R3',
    top: '40 cm',
    bottom: '42 cm',
  });
  assert.deepEqual(takenCells({ ...planned, identifier: '10.58052/INVENTED1', material: null }, null, 'm'), {
    sample: 'S3',
    hole: 'T1',
    identifier: '10.58052/INVENTED1',
  });
  // 0.40 m are 1 ft 3 3/4 in, 0.42 m 1 ft 4 1/2 in, to the nearest quarter.
  assert.equal(cutReach(cutOf({ top_m: 3.6, bottom_m: 3.64 }, cores)!, 'ft'), '1 ft 3 3/4 in–1 ft 4 1/2 in');
});
