/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788): holes drawn from the
 * prior, dates from the holes, and the rank of the truth among the draws must be even for every kind of number; 95 %
 * intervals must hold it 95 times in 100. Depths are uncertain and shared, dates lie out of place at the stated rate, half
 * of the holes have a break. Seed 44.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { quantileSorted, randomStream } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { drawHole } from './simulated-hole.ts';

const SETS = 80;
const SEED = 44;
const BINS = 10;

const settings = { ...ageDepthDefaults, sections: 12, chains: 2, draws: 400 };

test(`ranks of the truth are even and 95 % intervals cover: ${SETS} simulated holes, seed ${SEED}`, (t) => {
  const ranks = new Map<string, number[]>();
  const covered = new Map<string, number>();
  const scores = { said: 0, were: 0, dates: 0 };
  let converged = 0;
  for (let set = 0; set < SETS; set++) {
    const stream = randomStream(SEED).split(set);
    const hole = drawHole(
      settings,
      { bottom_m: 5, dates: 4, sd_yr: 60, shift_m: 0.03, own_m: 0.01, breaks: set % 2 },
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
      ['age of a horizon', hole.age_cal_bp(any.depth_m[hole.state]!), draws(`age of ${any.id}`)],
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
    result.horizons.forEach(({ out_of_place }, i) => {
      scores.dates++;
      scores.said += out_of_place;
      if (hole.outOfPlace[i]) scores.were++;
    });
  }

  let worst = 0;
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
    // Upper 1e-5 quantile of chi-square at 9 degrees; four binomial sds.
    assert(chi < 39.3, `${name}: χ² ${chi}`);
    assert(Math.abs(share - 0.95) < 4 * Math.sqrt((0.95 * 0.05) / places.length), `${name}: ${share} held`);
  }
  t.diagnostic(`converged ${converged} of ${SETS}; worst χ² ${worst.toFixed(1)}`);
  t.diagnostic(`out of place: said ${scores.said.toFixed(1)}, were ${scores.were} of ${scores.dates}`);
  assert(converged > 0.8 * SETS, `${converged} converged`);
});
