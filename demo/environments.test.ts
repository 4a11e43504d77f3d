/** The true history of the invented coast: printed whole, and held against itself. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { bottomOf, topOf } from './environments.ts';
import { DEMO_SEED, demoCampaign } from './index.ts';
import { ageOfFallingLevel, trueLevel } from './sea.ts';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const { truth } = demoCampaign(DEMO_SEED, curves);
const { columns, environmentAt, surfaceAt, edgeAt } = truth.environments;
const SEEDS = [DEMO_SEED, 2, 3, 4];

test('when each layer was laid down, and how high above the sea of its time', (t) => {
  for (const { hole, layers } of columns)
    for (const layer of layers) {
      const [top, base] = [layer.knots[0]!, layer.knots.at(-1)!];
      const above = ({ height_m, age_cal_bp }: typeof top): string =>
        (height_m - trueLevel(age_cal_bp)).toFixed(2);
      t.diagnostic(
        `${hole} ${layer.environment}, ${layer.key}: ${bottomOf(layer).toFixed(0)} to ${topOf(layer).toFixed(0)} cal BP, ${base.height_m.toFixed(2)} to ${top.height_m.toFixed(2)} m, ${above(base)} to ${above(top)} m above the sea`,
      );
    }
  for (let age = 0; age <= 8800; age += 400)
    t.diagnostic(`${age} cal BP: the land ends at ${edgeAt(age).toFixed(0)} m`);
});

for (const seed of SEEDS)
  test(`no layer is older than what lies below it, and time is missing only where something was removed, seed ${seed}`, () => {
    for (const { hole, layers } of demoCampaign(seed, curves).truth.environments.columns) {
      for (const { key, knots } of layers)
        for (const [i, { height_m, age_cal_bp }] of knots.entries())
          if (i > 0)
            assert.ok(
              age_cal_bp >= knots[i - 1]!.age_cal_bp && height_m <= knots[i - 1]!.height_m,
              `${hole}, ${key}: ${age_cal_bp} cal BP below ${knots[i - 1]!.age_cal_bp}`,
            );
      const missing = layers.filter((layer, i) => i > 0 && topOf(layer) !== bottomOf(layers[i - 1]!));
      for (const { key } of missing)
        assert.ok({ T2: 'flat', M1: 'basal peat' }[hole] === key, `${hole}, ${key}`);
    }
  });

test('samples in place lie where the layer of their age does', () => {
  for (const { sample, hole, age_cal_bp, elevation_m, is_in_place } of truth.samples) {
    if (!is_in_place || hole === 'T1') continue;
    const at = surfaceAt(hole, age_cal_bp);
    // A peat of a given age has it at its base, and its sample 1 to 3 cm above.
    assert.ok(at !== null && Math.abs(at - elevation_m) < 0.031, `${sample}: ${at}, ${elevation_m}`);
  }
});

test('the land ends at a hole when the layer on its soil began, and when its turf did', () => {
  for (const { hole, along_m, layers } of columns) {
    const covered = topOf(layers.find(({ key }) => key === 'soil')!);
    // To one side of that age it is beyond all holes.
    assert.ok(
      [-0.01, 0.01].some((more) => Math.abs(edgeAt(covered + more) - along_m) < 0.1),
      hole,
    );
    assert.equal(environmentAt(hole, covered + 1), 'land surface');
    assert.equal(environmentAt(hole, covered - 1), 'high marsh');
  }
  for (const { hole, along_m, layers } of columns.slice(-2)) {
    assert.ok(Math.abs(edgeAt(bottomOf(layers[0]!) - 0.01) - along_m) < 0.1, hole);
    assert.equal(environmentAt(hole, 0), 'land surface');
  }
  assert.ok(edgeAt(0) > columns[2]!.along_m, 'the outer marsh is none of the land');
});

test('the land goes inward while the sea rises, and comes back while it falls', () => {
  for (let age = 6060; age < 8650; age += 10) assert.ok(edgeAt(age) >= edgeAt(age + 10), `${age}`);
  for (let age = 0; age < 2500; age += 10) assert.ok(edgeAt(age) <= edgeAt(age + 10), `${age}`);
});

test('the age of a level of the falling sea is that of the level', () => {
  for (const age of [0, 900, 2390, 4000])
    assert.ok(Math.abs(ageOfFallingLevel(trueLevel(age))! - age) < 0.02, `${age}`);
  assert.equal(ageOfFallingLevel(0.62), null);
  assert.equal(ageOfFallingLevel(-1), null);
});
