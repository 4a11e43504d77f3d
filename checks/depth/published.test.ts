import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  depthDefaults,
  depthModel,
  enteredLength,
  inSituDepth,
  placeInPush,
  reducePush,
} from '@stillstand/science/depth';

test('decaying shortening: E(1.524) = 0.9265 and E(4.572) = 3.3988 m at ρ₀ 0.5, ℓ 3 m', () => {
  // Closed form worked out apart from this code (5 ft and 15 ft of pipe); common practice, no source.
  assert.ok(Math.abs(enteredLength(1.524, 0.5, 3) - 0.9265) < 5e-5);
  assert.ok(Math.abs(enteredLength(4.572, 0.5, 3) - 3.3988) < 5e-5);
});

interface Core {
  id: string;
  surface_mllw_m: number;
  surface_navd88_m: number;
  sample_m: number;
  removed_m: number;
  shortening_m: number;
}

const folder = new URL('./data/', import.meta.url);
const rows = (file: string) => {
  const [head, ...body] = readFileSync(new URL(file, folder), 'utf8').trim().split(/\r?\n/);
  const names = head!.split(',');
  return body.map((line) => new Map(line.split(',').map((cell, i) => [names[i]!, cell])));
};
const metres = (row: Map<string, string>, name: string) => Number(row.get(name)) / 100;

const cores: Core[] = rows('cores.csv').map((r) => ({
  id: r.get('core_id')!,
  surface_mllw_m: metres(r, 'surface_elevation_cm_mllw'),
  surface_navd88_m: metres(r, 'surface_elevation_cm_navd88'),
  sample_m: metres(r, 'sample_length_after_shortening_cm'),
  removed_m: metres(r, 'top_layer_removed_before_coring_cm'),
  shortening_m: metres(r, 'shortening_cm'),
}));

/** Rows of one core, least and greatest thickness of its layers from the top, m; `tops` where given. */
const layersOf = (id: string) =>
  rows('layers.csv')
    .filter((r) => r.get('core_id') === id)
    .map((r) => ({
      top:
        r.get('top_elevation_min_cm_mllw') === ''
          ? null
          : [metres(r, 'top_elevation_min_cm_mllw'), metres(r, 'top_elevation_max_cm_mllw')],
      least: metres(r, 'thickness_min_cm'),
      most: r.get('thickness_max_cm') === '' ? metres(r, 'thickness_min_cm') : metres(r, 'thickness_max_cm'),
    }));

const pushOf = (core: Core) => ({
  row_id: core.id,
  from_m: core.removed_m,
  to_m: core.removed_m + core.sample_m + core.shortening_m,
  recovered_m: core.sample_m,
  // the sediment inside stood this far below the ground outside
  inside_top_m: core.shortening_m,
  outside_top_m: 0,
  chamber: false,
});

// Six vibracores, Turck 2014, doi 10.6073/pasta/4541ae084d807962b8c331eea61908bd; see data/README.md.
test('six published vibracores: one datum offset, and the base of each core at the sum of its corrected layers', () => {
  for (const core of cores) {
    assert.ok(Math.abs(core.surface_mllw_m - core.surface_navd88_m - 1.277) < 1e-9);
    const layers = layersOf(core.id);
    // a thicker mud is a thinner sand: the contact is a range, the sum is not
    const sum = layers[0]!.least + layers[1]!.most + layers[2]!.least;
    const push = pushOf(core);
    const reckoning = reducePush(push);
    assert.ok(Math.abs(reckoning.entered_m - core.sample_m) < 1e-9);
    const model = depthModel(reckoning.input, randomStream(core.id), depthDefaults);
    const base = inSituDepth(model, placeInPush(push, reckoning, core.sample_m));
    assert.ok(Math.abs(base.value - sum) < 0.02 + base.sigma, `${core.id}: ${base.value} ${sum}`);
    assert.ok(base.lower95 - 0.02 <= sum && base.upper95 + 0.02 >= sum);
    // what was dug away first stays at its depth
    assert.equal(inSituDepth(model, 0).value, core.removed_m);
  }
});

test('their layer tops: surface less the thickness above, within 1 cm', () => {
  for (const core of cores) {
    const [mud, sand, clay] = layersOf(core.id);
    const sandTop = [core.surface_mllw_m - mud!.most, core.surface_mllw_m - mud!.least];
    sandTop.forEach((top, i) => {
      assert.ok(Math.abs(top - sand!.top![i]!) < 0.0101, `${core.id} ${top}`);
    });
    assert.ok(Math.abs(sand!.top![0]! - sand!.least - clay!.top![0]!) < 0.0101, core.id);
  }
});

test('shortening grows with the thickness of their mud, as ours does where the top is soft', () => {
  const pairs = cores.map((c) => [layersOf(c.id)[0]!.most, c.shortening_m] as const);
  const sorted = [...pairs].sort((a, b) => a[0] - b[0]);
  assert.ok(sorted[0]![1] < 0.03 && sorted[5]![1] > 0.18);
  const local = (top: number, bottom: number) =>
    (enteredLength(bottom, 0.6, 3) - enteredLength(top, 0.6, 3)) / (bottom - top);
  assert.ok(local(0, 0.5) < local(1, 1.5));
});
