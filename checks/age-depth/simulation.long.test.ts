/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788): holes drawn from the
 * prior, dates from the holes, and the rank of the truth among the draws must be even for every kind of number; 95 %
 * intervals must hold it 95 times in 100. Depths are uncertain and shared, dates lie out of place at the stated rate, half
 * of the holes have a break. Seed 41. The gate takes the first 30 holes, the whole 50, `STILLSTAND_SETS=100` the 100 of the page.
 *
 * Seed, holes and bounds are those it was first written with. Ranks: χ² below its upper 1e-5 quantile at 9 degrees of
 * freedom, so that ten sound histograms fail once in 10,000 tries. Coverage: 0.95 within four binomial sds, 0.087 of 100
 * holes and 0.123 of 50, with the same arithmetic for fewer. Converged: more than nine holes in ten, first written without a reason: R-hat
 * below 1.01 and 400 effective draws for all of some sixty numbers, two chains of 400 draws, up to 16-fold sweeps.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { partOrWhole } from '../bounds/part.ts';
import { countOutOfPlace, missedBy, noRanks, rank } from './ranks.ts';
import { drawHole } from './simulated-hole.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? partOrWhole(30, 50));
const SEED = 41;
const CONVERGED = 0.9;

const settings = { ...ageDepthDefaults, sections: 24, chains: 2, draws: 400 };

test(`ranks of the truth are even and 95 % intervals cover: ${SETS} simulated holes, seed ${SEED}`, (t) => {
  const ranks = noRanks();
  let converged = 0;
  for (let set = 0; set < SETS; set++) {
    const stream = randomStream(SEED).split(set);
    const hole = drawHole(
      settings,
      { bottom_m: 5, dates: 5, sd_yr: 60, shift_m: 0.04, own_m: 0.02, breaks: set % 2 },
      stream,
    );
    const run = ageDepthWithDraws(hole.input, settings, stream.split('run'));
    assert(run.kind === 'run');
    const { result, quantities } = run;
    if (result.diagnostics.converged) converged++;
    const draws = (name: string): Float64Array =>
      Float64Array.from(quantities.find((q) => q.name === name)!.chains.flatMap((c) => [...c]));
    const any = hole.input.horizons[set % hole.input.horizons.length]!;
    const numbers: [string, number, Float64Array][] = [
      ['age at 0.5 m', hole.age_cal_bp(0.5), result.agesAt(0.5)],
      ['age at 2 m', hole.age_cal_bp(2), result.agesAt(2)],
      ['age at 3.5 m', hole.age_cal_bp(3.5), result.agesAt(3.5)],
      ['age at 4.9 m', hole.age_cal_bp(4.9), result.agesAt(4.9)],
      ['age of D1', hole.age_cal_bp(hole.input.horizons[0]!.depth_m[hole.state]!), draws('age of D1')],
      ['age of each horizon in turn', hole.age_cal_bp(any.depth_m[hole.state]!), draws(`age of ${any.id}`)],
      ['variation', hole.variation, draws('variation of accumulation')],
      ['persistence', hole.persistence_m, draws('persistence of accumulation')],
      ['accumulation', hole.accumulation_mm_yr, draws('accumulation of the hole')],
    ];
    if (hole.gap_yr.length > 0) numbers.push(['gap', hole.gap_yr[0]!, draws('gap at contact 1')]);
    for (const [name, is, drawn] of numbers) rank(ranks, name, is, drawn);
    countOutOfPlace(ranks, result.clocks, hole.outOfPlace);
  }

  const missed = missedBy(ranks, t);
  t.diagnostic(`converged ${converged} of ${SETS}`);
  assert.deepEqual(missed, []);
  assert(converged / SETS > CONVERGED, `${converged} of ${SETS} converged`);
});
