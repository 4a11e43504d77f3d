/** Grain size as it is drawn: which analyses, in which order, their curves, their place in the triangle, and the lane. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { grainLaneOf } from '../column/grain-lane.ts';
import { grainsMeasured } from '../fixtures/grains.ts';
import { numberedGrains } from './key.ts';
import { mixtureOf } from './triangle.tsx';

test('analyses are numbered from the top down; one that does not sum is left to the table', () => {
  const { of, left } = numberedGrains(
    { ...grainsMeasured, grain_sizes: grainsMeasured.grain_sizes.toReversed() },
    'T3',
  );
  assert.equal(left, 1);
  const depths = of.map(({ size }) => size.depth_m!.value);
  assert.deepEqual(
    depths,
    depths.toSorted((a, b) => a - b),
  );
  assert.deepEqual(
    of.map(({ number }) => number),
    [1, 2, 3, 4, 5, 6, 7, 8, 9],
  );
});

test('a curve begins at 0 and ends at 100 %, unless its last class has no end', () => {
  for (const { curve, size } of numberedGrains(grainsMeasured, 'T3').of) {
    assert.equal(curve[0]![1], 0);
    const end = curve.at(-1)!;
    assert.ok(Math.abs(end[1] - (100 - size.open_fine_percent!)) < 1e-9);
    for (let i = 1; i < curve.length; i++)
      assert.ok(curve[i]![0] > curve[i - 1]![0] && curve[i]![1] >= curve[i - 1]![1]);
  }
});

test('the triangle has sand, silt and clay of what is not gravel; nothing where mud was not parted', () => {
  const parts = (gravel: number, sand: number, silt: number | null, clay: number | null) =>
    mixtureOf({
      size: {
        ...grainsMeasured.grain_sizes[0]!,
        gravel_percent: gravel,
        sand_percent: sand,
        silt_percent: silt,
        clay_percent: clay,
      },
    });
  assert.deepEqual(parts(50, 25, 15, 10), { sand: 0.5, silt: 0.3, clay: 0.2 });
  assert.equal(parts(0, 90, null, null), null);
  assert.equal(parts(100, 0, 0, 0), null);
});

test('the lane has parts that sum to 100 %, joined only where no contact lies between', () => {
  const lane = grainLaneOf(grainsMeasured, 'T3')!;
  assert.deepEqual(lane.parts, ['clay', 'mud', 'silt', 'sand', 'gravel']);
  for (const { percents } of lane.samples)
    assert.ok(Math.abs(percents.reduce((sum, percent) => sum + percent, 0) - 100) < 1e-6);
  const contacts = grainsMeasured.holes[0]!.units.map(({ depth_bottom_m }) => depth_bottom_m.value);
  lane.samples.forEach(({ depth_m, isJoined }, i) => {
    const above = lane.samples[i - 1]?.depth_m;
    const isOneLayer =
      above !== undefined && !contacts.some((contact) => contact > above && contact < depth_m);
    assert.equal(isJoined, isOneLayer);
  });
  assert.equal(grainLaneOf(grainsMeasured, 'T9'), null);
});
