/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788): holes drawn from the
 * prior, dates from the holes, and the rank of the truth among the draws must be even for every kind of number; 95 %
 * intervals must hold it 95 times in 100. Depths are uncertain and shared, dates lie out of place at the stated rate, half
 * of the holes have a break. Seed 41. The gate takes the first 50 holes, `STILLSTAND_SETS=100` the 100 of the page.
 *
 * Seed, holes and bounds are those it was first written with. Ranks: χ² below its upper 1e-5 quantile at 9 degrees of
 * freedom, so that ten sound histograms fail once in 10,000 tries. Coverage: 0.95 within four binomial sds, 0.087 of 100
 * holes and 0.123 of 50, with the same arithmetic for fewer. Converged: more than nine holes in ten, first written without a reason: R-hat
 * below 1.01 and 400 effective draws for all of some sixty numbers, two chains of 400 draws, up to 16-fold sweeps.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { quantileSorted, randomStream } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { drawHole } from './simulated-hole.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? 50);
const SEED = 41;
const BINS = 10;
const CONVERGED = 0.9;

const settings = { ...ageDepthDefaults, sections: 24, chains: 2, draws: 400 };

test(`ranks of the truth are even and 95 % intervals cover: ${SETS} simulated holes, seed ${SEED}`, (t) => {
  const ranks = new Map<string, number[]>();
  const covered = new Map<string, number>();
  const scores = { said: 0, were: 0, dates: 0 };
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
    for (const [name, is, unordered] of numbers) {
      const sorted = unordered.slice().sort();
      let below = 0;
      while (sorted[below]! < is) below++;
      ranks.set(name, [...(ranks.get(name) ?? []), (below + 0.5) / (sorted.length + 1)]);
      const holds = is >= quantileSorted(sorted, 0.025) && is <= quantileSorted(sorted, 0.975);
      covered.set(name, (covered.get(name) ?? 0) + (holds ? 1 : 0));
    }
    result.clocks.forEach(({ outlier_probability }, i) => {
      scores.dates++;
      scores.said += outlier_probability;
      if (hole.outOfPlace[i]) scores.were++;
    });
  }

  let worst = 0;
  const missed: string[] = [];
  for (const [name, places] of ranks) {
    const bins = new Float64Array(BINS);
    for (const p of places) bins[Math.floor(p * BINS)]!++;
    const expected = places.length / BINS;
    const chi = bins.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
    worst = Math.max(worst, chi);
    const share = covered.get(name)! / places.length;
    t.diagnostic(
      `${name}: χ² ${chi.toFixed(1)} at ${BINS - 1}, 95 % hold ${share.toFixed(3)}, ranks ${bins.join(' ')}`,
    );
    if (!(chi < 39.3)) missed.push(`${name}: χ² ${chi}`);
    if (!(Math.abs(share - 0.95) < 4 * Math.sqrt((0.95 * 0.05) / places.length)))
      missed.push(`${name}: ${share} held`);
  }
  t.diagnostic(`converged ${converged} of ${SETS}; worst χ² ${worst.toFixed(1)}`);
  t.diagnostic(`out of place: said ${scores.said.toFixed(1)}, were ${scores.were} of ${scores.dates}`);
  assert.deepEqual(missed, []);
  assert(converged / SETS > CONVERGED, `${converged} of ${SETS} converged`);
});
