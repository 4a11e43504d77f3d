import assert from 'node:assert/strict';
import { test } from 'node:test';
import { knownToFail } from '../../checks/bounds/known-to-fail.ts';
import { benchDepth } from './index.ts';

test('a depth model of 24 soundings keeps a fifth of its draws different at the top (seeds 0 to 59)', async (t) => {
  const measured = benchDepth();
  console.log(JSON.stringify(measured));
  const { ancestors, sigma_spread } = measured.find((m) => m.pins === 24)!;
  // A fifth of 400 draws is 80, for a 95 % interval; 2 % of a sigma is not seen in its two digits. As first written.
  assert.ok(ancestors > 0.2, `${ancestors}`);
  await knownToFail(t, {
    what: 'depth, sigma of the recovery at the ground between seeds, as a share of it, 24 soundings, seeds 0 to 59',
    bound: { at_most: 0.02 },
    measured: sigma_spread,
    stated: '0.081',
    since: '2026-11-29',
    page: 'docs/methods/depth.md',
  });
});
