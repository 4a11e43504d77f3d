/**
 * Whether age against depth settles on holes of six kinds, with the settings of the product: R-hat below 1.01 and 400
 * effective draws of every number. `STILLSTAND_HOLES=200 node --import tsx --test checks/age-depth/settles.long.test.ts`
 * takes seeds 1 to 200, the gate the first twelve, two of each kind.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import { ageDepth, ageDepthDefaults } from '@stillstand/science/dating';
import { kindOfHole } from './kinds-of-holes.ts';

const HOLES = Number(process.env['STILLSTAND_HOLES'] ?? 12);

test(`${HOLES} holes of six kinds settle, all of them (seeds 1 to ${HOLES})`, async (t) => {
  const intcal = await loadCurve('intcal20');
  const bomb = await loadCurve('bomb21_nh2');
  const not: number[] = [];
  for (let seed = 1; seed <= HOLES; seed++) {
    const { kind, input } = kindOfHole(seed, intcal, bomb);
    const began = process.cpuUsage().user;
    const result = ageDepth(input, ageDepthDefaults, randomStream(seed).split('run'));
    assert(result.kind === 'age_depth', kind);
    const { converged, sweeps, rhat_max, ess_bulk_min, ess_tail_min } = result.diagnostics;
    if (!converged) not.push(seed);
    const modes = result.modes.map(({ probability }) => probability.toFixed(2)).join(' and ');
    t.diagnostic(
      `${seed} ${kind}, ${input.horizons.length} dates: ${converged ? 'settled' : 'NOT settled'} after ${sweeps} sweeps, ` +
        `R-hat ${rhat_max.toFixed(3)}, effective draws ${ess_bulk_min.toFixed(0)}, of bounds ${ess_tail_min.toFixed(0)}, ` +
        `${((process.cpuUsage().user - began) / 1e6).toFixed(1)} s${modes === '' ? '' : `, two histories ${modes}`}`,
    );
  }
  assert.deepEqual(not, [], 'seeds of holes that do not settle');
});
