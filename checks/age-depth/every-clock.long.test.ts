/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788) with a clock of every kind in one
 * hole: lead-210 from the ground down, radiocarbon, luminescence by dose and rate and as stated, a uranium series, a marker that is
 * even over a range and one of a table. Holes drawn from the prior, their measurements from the truth (`hole-of-every-clock.ts`);
 * half of the holes have a break. Seed 81. The gate takes 12 holes, the whole 20, `STILLSTAND_SETS=150 node --import tsx --test
 * checks/age-depth/every-clock.long.test.ts` takes more.
 *
 * Set before measuring, as in `simulation.long.test.ts`. Ranks: χ² below its upper 1e-5 quantile at 9 degrees of freedom, 39.3.
 * Coverage: 0.95 within four binomial sds. Converged: more than nine holes in ten (R-hat below 1.01 and 400 effective draws).
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { partOrWhole } from '../bounds/part.ts';
import { CLOCKS, holeOfEveryClock } from './hole-of-every-clock.ts';
import { countOutOfPlace, missedBy, noRanks, rank } from './ranks.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? partOrWhole(12, 20));
const SEED = 81;
const CONVERGED = 0.9;

/** Holes differ less in accumulation than by the usual prior, so that few end beyond the years that the clocks reach. */
const settings = { ...ageDepthDefaults, sections: 24, chains: 2, draws: 400, accumulation_log_sd: 0.7 };

test(`every clock in one hole: ranks of the truth are even and 95 % intervals cover (${SETS} holes, seed ${SEED})`, (t) => {
  const ranks = noRanks();
  let [converged, refused] = [0, 0];
  const began = process.cpuUsage().user;
  for (let set = 0; set < SETS; set++) {
    const stream = randomStream(SEED).split(set);
    const { hole, refused: before } = holeOfEveryClock(settings, set % 2, stream);
    refused += before;
    const run = ageDepthWithDraws(hole.input, settings, stream.split('run'));
    assert(run.kind === 'run');
    const { result, quantities } = run;
    if (result.diagnostics.converged) converged++;
    const draws = (name: string): Float64Array =>
      Float64Array.from(quantities.find((q) => q.name === name)!.chains.flatMap((c) => [...c]));
    const horizonAge = (i: number): number => hole.age_cal_bp(hole.input.horizons[i]!.depth_m[hole.state]!);
    const turn = set % CLOCKS.length;
    const numbers: [string, number, Float64Array][] = [
      ...[0.05, 0.15, 0.28, 0.6, 1.5, 2.4, 2.95].map((d): [string, number, Float64Array] => [
        `age at ${d} m`,
        hole.age_cal_bp(d),
        result.agesAt(d),
      ]),
      ['age of each date in turn', horizonAge(turn), draws(`age of D${turn + 1}`)],
      ['variation', hole.variation, draws('variation of accumulation')],
      ['persistence', hole.persistence_m, draws('persistence of accumulation')],
      ['accumulation', hole.accumulation_mm_yr, draws('accumulation of the hole')],
    ];
    if (hole.gap_yr.length > 0) numbers.push(['gap', hole.gap_yr[0]!, draws('gap at contact 1')]);
    for (const [name, is, drawn] of numbers) rank(ranks, name, is, drawn);
    countOutOfPlace(ranks, result.clocks, hole.outOfPlace);
  }

  const missed = missedBy(ranks, t);
  t.diagnostic(`converged ${converged} of ${SETS}; ${refused} holes drawn in vain`);
  t.diagnostic(`${((process.cpuUsage().user - began) / 1e6 / SETS).toFixed(1)} s a hole`);
  assert.deepEqual(missed, []);
  assert(converged / SETS > CONVERGED, `${converged} of ${SETS} converged`);
});
