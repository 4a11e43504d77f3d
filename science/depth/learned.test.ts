/** What the soundings teach of the whole hole: contrast of layers, friction of the plug, by-passed ground; and what a user
 * has set is kept. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream } from '@stillstand/science/base';
import type { Registration } from '@stillstand/science/rig';
import { depthModel } from './decaying.ts';
import { inSituDepth } from './in-situ.ts';
import { type DepthSettings, depthDefaults } from './settings.ts';

/** A sounding each 0.6 m, a run after every second one that leaves 0.3 m; what enters goes by the plug before the spell. */
function sounded(recovery: (spell: number, plug_m: number) => number): Registration[] {
  const registration: Registration[] = [];
  let entered_m = 0;
  let removed_m = 0;
  for (let j = 1; j <= 16; j++) {
    // in steps, for friction that changes on the way
    for (let k = 0; k < 60; k++) entered_m += 0.01 * recovery(j, entered_m - removed_m);
    const row_id = `p${j}`;
    registration.push({
      kind: 'pin',
      row_id,
      penetration_m: 0.6 * j,
      entered_m,
      sigma_m: 0.01,
      place_sigma_m: 0,
    });
    if (j % 2 === 1) continue;
    removed_m = entered_m - 0.3;
    const run = { row_id: `r${j}`, entered_bottom_m: removed_m, sigma_m: 0.01 };
    registration.push({ kind: 'run', ...run, from: 'soundings' });
  }
  return registration;
}

const learned = (registration: Registration[], settings: DepthSettings = depthDefaults) =>
  depthModel({ from_m: 0, penetration_m: 9.6, registration }, randomStream(4271), settings);

test('even ground teaches a small contrast, ground of strong layers a large one (seed 4271)', () => {
  const even = learned(sounded(() => 0.8)).shortening!.layer_sd;
  const strong = learned(sounded((j) => [0.3, 0.6, 0.85, 0.97][(7 * j) % 4]!)).shortening!.layer_sd;
  // from a median of 1.2
  assert.ok(even.upper95 < 1 && strong.lower95 > 0.8, `${even.upper95} ${strong.lower95}`);
  assert.ok(strong.value > 2 * even.value);
});

test('a contrast that the user set is kept, whatever the soundings say (seed 4271)', () => {
  const settings = { ...depthDefaults, layer_sd: 0.7, layer_log_sd: 0 };
  const { layer_sd } = learned(
    sounded((j) => [0.3, 0.6, 0.85, 0.97][(7 * j) % 4]!),
    settings,
  ).shortening!;
  assert.ok(Math.abs(layer_sd.value - 0.7) < 1e-9 && layer_sd.sigma < 1e-6);
});

test('friction that starts again at each run is found; even recovery speaks against it (seed 4271)', () => {
  const rubbing = learned(sounded((_, plug_m) => 0.97 * exp(-0.5 * plug_m))).shortening!.friction;
  const even = learned(sounded(() => 0.9)).shortening!.friction;
  assert.ok(rubbing.probability > 0.9, `${rubbing.probability}`);
  assert.ok(rubbing.per_m.lower95 < 0.5 && rubbing.per_m.upper95 > 0.5);
  assert.ok(even.probability < depthDefaults.friction, `${even.probability}`);
});

test('recovery may fall with depth: what it tends to need not be 1 (seed 4271)', () => {
  const { recovery_at_depth } = learned(sounded((j) => 0.95 - 0.03 * j)).shortening!;
  assert.ok(recovery_at_depth.value < 0.75, `${recovery_at_depth.value}`);
});

test('a spell of which hardly anything entered was by-passed, and the ground below is in its place (seed 4271)', () => {
  const registration = sounded((j) => (j === 8 ? 0.03 : 0.95));
  const model = learned(registration);
  const { by_passed_m } = model.shortening!;
  assert.ok(by_passed_m.lower95 > 0.1 && by_passed_m.upper95 < 1.5, `${by_passed_m.lower95}`);
  const off = learned(registration, { ...depthDefaults, by_passing: 0 }).shortening!.by_passed_m;
  assert.equal(off.upper95, 0);
  // 0.1 m above the sounding that ended the spell before, and as much below the one that ended it
  const before = registration.find((r) => r.row_id === 'p7')!;
  const after = registration.find((r) => r.row_id === 'p8')!;
  assert.ok(before.kind === 'pin' && after.kind === 'pin');
  assert.ok(Math.abs(inSituDepth(model, before.entered_m - 0.1).value - 4.09) < 0.06);
  assert.ok(Math.abs(inSituDepth(model, after.entered_m + 0.1).value - 4.91) < 0.06);
});
