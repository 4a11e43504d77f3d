/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788) with a clock of every kind in one
 * hole: lead-210 from the ground down, radiocarbon, luminescence by dose and rate and as stated, a uranium series, a marker that is
 * even over a range and one of a table. Holes drawn from the prior, their measurements from the truth (`hole-of-every-clock.ts`);
 * half of the holes have a break. Seed 81. The gate takes 20 holes, `STILLSTAND_SETS=150 node --import tsx --test
 * checks/age-depth/every-clock.long.test.ts` takes more.
 *
 * Set before measuring, as in `simulation.long.test.ts`. Ranks: χ² below its upper 1e-5 quantile at 9 degrees of freedom, 39.3.
 * Coverage: 0.95 within four binomial sds. Converged: more than nine holes in ten (R-hat below 1.01 and 400 effective draws).
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { quantileSorted, randomStream } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { CLOCKS, holeOfEveryClock } from './hole-of-every-clock.ts';

const SETS = Number(process.env['STILLSTAND_SETS'] ?? 20);
const SEED = 81;
const BINS = 10;
const MOST_CHI = 39.3;
const CONVERGED = 0.9;

/** Holes differ less in accumulation than by the usual prior, so that few end beyond the years that the clocks reach. */
const settings = { ...ageDepthDefaults, sections: 24, chains: 2, draws: 400, accumulation_log_sd: 0.7 };

test(`every clock in one hole: ranks of the truth are even and 95 % intervals cover (${SETS} holes, seed ${SEED})`, (t) => {
  const ranks = new Map<string, number[]>();
  const covered = new Map<string, number>();
  const scores = { said: 0, were: 0, dates: 0 };
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
    if (!(chi < MOST_CHI)) missed.push(`${name}: χ² ${chi}`);
    if (!(Math.abs(share - 0.95) < 4 * Math.sqrt((0.95 * 0.05) / places.length)))
      missed.push(`${name}: ${share} held`);
  }
  t.diagnostic(
    `converged ${converged} of ${SETS}; worst χ² ${worst.toFixed(1)}; ${refused} holes drawn in vain`,
  );
  t.diagnostic(`out of place: said ${scores.said.toFixed(1)}, were ${scores.were} of ${scores.dates}`);
  t.diagnostic(`${((process.cpuUsage().user - began) / 1e6 / SETS).toFixed(1)} s a hole`);
  assert.deepEqual(missed, []);
  assert(converged / SETS > CONVERGED, `${converged} of ${SETS} converged`);
});
