/** A walk, and one that goes on from it by itself. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream } from '@stillstand/science/base';
import {
  type AgeDepthInput,
  ageDepthDefaults,
  copyOfWalk,
  depthsIn,
  endWarmUpOfWalk,
  holeToWalk,
  startWalk,
  sweepWalk,
  walkState,
} from './index.ts';

const density = (mean: number, sd: number) => ({
  from_cal_bp: mean - 5 * sd,
  density: Float64Array.from({ length: 10 * sd }, (_, i) => exp(-0.5 * ((i - 5 * sd) / sd) ** 2)),
});
const depths = (d: number): Float64Array => Float64Array.of(d, d + 0.1, d - 0.1);

/** Two dates that contradict the lowest, in three states. */
const input: AgeDepthInput = {
  horizons: [
    { id: 'a', depth_m: depths(1), age: density(1000, 40) },
    { id: 'b', depth_m: depths(2), age: density(5000, 40) },
    { id: 'c', depth_m: depths(3), age: density(3100, 40) },
  ],
  surface: null,
  breaks: [{ id: 'contact', depth_m: depths(1.5) }],
  bottom_m: 4,
};

test('a copy that walks on leaves the walk it came from as it was, and goes the same way by the same lots', () => {
  const hole = holeToWalk(input, ageDepthDefaults);
  assert(hole.kind === 'hole');
  const walk = startWalk(hole, depthsIn(hole, []), randomStream(5));
  // Asked, and refused at times.
  let refused = 0;
  const onward = (each: typeof walk): void => {
    for (let k = 0; k < 50; k++)
      sweepWalk(
        each,
        0,
        () => (k % 2 === 0 ? 0 : -2),
        () => refused++,
      );
  };
  onward(walk);
  endWarmUpOfWalk(walk);
  const before = structuredClone(walkState(walk));
  const level = walk.chain.history.level.slice();
  const copy = copyOfWalk(walk, randomStream(6));
  onward(copy);
  assert(refused > 0);
  assert.notDeepEqual(walkState(copy), before);
  assert.deepEqual(walkState(walk), before);
  assert.deepEqual(walk.chain.history.level, level);
  walk.chain.stream = randomStream(6);
  onward(walk);
  assert.deepEqual(walkState(walk), walkState(copy));
});
