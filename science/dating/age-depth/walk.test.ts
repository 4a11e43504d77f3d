/** A copy of a walk goes on by itself: neither changes what the other holds. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream } from '@stillstand/science/base';
import type { AgeDepthInput } from './model.ts';
import { ageDepthDefaults } from './settings.ts';
import {
  copyOfWalk,
  depthsIn,
  endWarmUpOfWalk,
  holeToWalk,
  startWalk,
  sweepWalk,
  type Walk,
  walkState,
} from './walk.ts';

/** Two dates of four contradict the others, so that every kind of change is tried and many are taken back. */
const input: AgeDepthInput = {
  horizons: [900, 3000, 1500, 4100].map((mean, i) => ({
    id: `D${i + 1}`,
    depth_m: Float64Array.of(i + 1, i + 1.05),
    age: {
      from_cal_bp: mean - 300,
      density: Float64Array.from({ length: 601 }, (_, y) => exp(-0.5 * ((y - 300) / 60) ** 2)),
    },
  })),
  surface: { age_cal_bp: 0, sd_yr: 10 },
  breaks: [],
  bottom_m: 5,
};

const sweepOn = (walk: Walk, times: number): void => {
  for (let k = 0; k < times; k++)
    sweepWalk(
      walk,
      0,
      () => 0,
      () => {},
    );
};

test('a copy of a walk leaves it as it was, and goes where the walk itself would (seed 2)', () => {
  const model = holeToWalk(input, ageDepthDefaults);
  assert(model.kind === 'hole');
  const walk = startWalk(model, depthsIn(model, []), randomStream(2));
  sweepOn(walk, 60);
  endWarmUpOfWalk(walk);
  const before = walkState(walk);
  const copies = [7, 7].map((seed) => copyOfWalk(walk, randomStream(seed)));
  for (const copy of copies) sweepOn(copy, 40);
  assert.deepEqual(walkState(walk), before);
  assert.deepEqual(walkState(copies[0]!), walkState(copies[1]!));
  const copy = copyOfWalk(walk, randomStream(9));
  walk.chain.stream = randomStream(9);
  sweepOn(copy, 40);
  sweepOn(walk, 40);
  assert.deepEqual(walkState(copy), walkState(walk));
});
