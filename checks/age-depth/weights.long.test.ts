/**
 * The probabilities of two histories of a hole against much longer runs, half of them begun with no date in place. The
 * holes are the first of those of six kinds in which two histories are found. The gate takes two and
 * runs four times as long, the whole ten times;
 * `STILLSTAND_HOLES=20 STILLSTAND_TIMES=10 node --import tsx --test checks/age-depth/weights.long.test.ts` takes twenty.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { log, mcseMean, mean, type RandomStream, randomStream } from '@stillstand/science/base';
import {
  type AgeDepth,
  type AgeDepthInput,
  ageDepthDefaults,
  ageDepthSampler,
  ageDepthWithDraws,
  ageOfDateInWalk,
  dateInHole,
  depthsIn,
  type HoleToWalk,
  holeToWalk,
  startWalk,
  type Walk,
  walkOnFrom,
  walkState,
} from '@stillstand/science/dating';
import { partOrWhole } from '../bounds/part.ts';
import { kindOfHole } from './kinds-of-holes.ts';

const HOLES = Number(process.env['STILLSTAND_HOLES'] ?? 2);
const TIMES = Number(process.env['STILLSTAND_TIMES'] ?? partOrWhole(4, 10));
/** Promised of each probability. */
const WITHIN = 0.05;

test(`two histories of ${HOLES} holes: as probable as in runs ${TIMES} times as long from either start`, async (t) => {
  const intcal = await loadCurve('intcal20');
  const bomb = await loadCurve('bomb21_nh2');
  const off: number[] = [];
  for (let seed = 1, found = 0; found < HOLES; seed++) {
    const { kind, input } = kindOfHole(seed, intcal, bomb);
    const run = ageDepthWithDraws(input, ageDepthDefaults, randomStream(seed).split('run'));
    assert(run.kind === 'run', kind);
    const { result, quantities } = run;
    if (result.modes.length !== 2) continue;
    found++;
    // Both runs are asked the same: whether the date that parts the histories is of the older one's side.
    const { date, at_cal_bp } = parting(result);
    const ages = quantities.find(({ name }) => name === `age of ${date}`)!.chains;
    const isOlder = ages.map((chain) => Float64Array.from(chain, (age) => (age > at_cal_bp ? 1 : 0)));
    const older = mean(isOlder.flatMap((chain) => [...chain]));
    // Such runs end only once three Monte-Carlo errors are within what is promised. Half the way to the emptiest place may part them a little otherwise.
    assert(mcseMean(isOlder) < (1.2 * WITHIN) / 3, `${seed}: ${mcseMean(isOlder)}`);
    const { sweeps, chains } = result.diagnostics;
    const each = Math.ceil((TIMES * chains * sweeps) / 2);
    const shares = (['in place', 'out of place'] as const).map((start) => {
      const walk = walkFrom(input, start, randomStream(seed).split(start));
      const i = dateInHole(ready(input), date);
      let count = 0;
      for (let s = 0; s < each; s++) {
        ageDepthSampler.sweep(walk.chain);
        if (ageOfDateInWalk(walk, i) > at_cal_bp) count++;
      }
      return count / each;
    });
    const long = (shares[0]! + shares[1]!) / 2;
    const by = Math.abs(older - long);
    if (by > WITHIN) off.push(seed);
    t.diagnostic(
      `${seed} ${kind}: older history ${older.toFixed(3)} of ${chains} chains of ${sweeps} sweeps; of ${2 * each} sweeps ` +
        `${long.toFixed(3)} (begun in place ${shares[0]!.toFixed(3)}, out of place ${shares[1]!.toFixed(3)}), ${by.toFixed(3)} apart`,
    );
  }
  assert.deepEqual(off, [], `seeds of holes with a probability more than ${WITHIN} off`);
});

/** The date whose horizon's age parts the two histories best for its age, half way. */
function parting({ modes }: AgeDepth): { date: string; at_cal_bp: number } {
  const [one, other] = [modes[0]!.clocks, modes[1]!.clocks];
  const apart = (i: number): number =>
    Math.abs(log((2000 + one[i]!.age_cal_bp) / (2000 + other[i]!.age_cal_bp)));
  const best = one.reduce((k, _, i) => (apart(i) > apart(k) ? i : k), 0);
  return { date: one[best]!.id, at_cal_bp: (one[best]!.age_cal_bp + other[best]!.age_cal_bp) / 2 };
}

function ready(input: AgeDepthInput): HoleToWalk {
  const hole = holeToWalk(input, ageDepthDefaults);
  assert(hole.kind === 'hole');
  return hole;
}

/** Warmed up, and then begun again as it is, or from a hole that took twenty times as long, which no date agrees with. */
function walkFrom(input: AgeDepthInput, start: 'in place' | 'out of place', stream: RandomStream): Walk {
  const hole = ready(input);
  const walk = startWalk(hole, depthsIn(hole, []), stream);
  for (let s = 0; s < 200; s++) ageDepthSampler.sweep(walk.chain);
  ageDepthSampler.endWarmUp(walk.chain);
  if (start === 'in place') return walk;
  const state = walkState(walk);
  const { mean } = state.law;
  assert(walkOnFrom(walk, { ...state, u: state.u.map(() => mean + log(20)) }));
  return walk;
}
