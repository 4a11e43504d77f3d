/**
 * Age against depth in one hole, and by a general engine for Bayesian models, JAGS (Plummer 2003, Proc. DSC; in Debian), one
 * chain on one core, the same dates and the same model in `general-engine.bug`: effective draws a second, warm-up counted on
 * both sides, of what settles last among s, L and the ages of the dated horizons; and how far their means lie apart, which
 * checks both. Dates are all but never out of place and depths exact, as the general engine has no states of a hole.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { essBulk, mean, randomStream, standardDeviation } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import { steadyHole } from './index.ts';

export interface AgeDepthGeneralBench {
  dates: number;
  seconds: number;
  least_effective_draws: number;
  effective_draws_per_second: number;
  general_seconds: number;
  general_least_effective_draws: number;
  general_effective_draws_per_second: number;
  times_as_fast: number;
  /** Largest difference of two means, in standard errors of that difference. */
  means_apart: number;
}

/** Draws of the general engine, after as many to warm up as the first number says. */
const SIZES = [
  { dates: 10, warmUp: 5000, draws: 40_000 },
  { dates: 30, warmUp: 5000, draws: 40_000 },
] as const;
const SETTINGS = { ...ageDepthDefaults, outlier: 1e-9 };

/** Null where the engine is not installed. */
export function benchAgeDepthGeneral(): AgeDepthGeneralBench[] | null {
  if (spawnSync('jags', [], { input: 'exit\n' }).error !== undefined) return null;
  return SIZES.map(({ dates, warmUp, draws }) => {
    const input = steadyHole(dates, 1);
    // The first warms the engine up.
    ageDepthWithDraws(steadyHole(10, 1), SETTINGS, randomStream(1));
    const started = performance.now();
    const run = ageDepthWithDraws(input, SETTINGS, randomStream(dates));
    const seconds = (performance.now() - started) / 1000;
    if (run.kind !== 'run') throw new Error(run.reason);
    const named = new Map(run.quantities.map(({ name, chains }) => [name, chains]));
    const theirs = inGeneralEngine(input, warmUp, draws);
    const compared = [
      ...input.horizons.map(({ id }, i) => ({ ours: named.get(`age of ${id}`)!, theirs: theirs.ages[i]! })),
      { ours: named.get('variation of accumulation')!.map(logs), theirs: theirs.log_s },
      { ours: named.get('persistence of accumulation')!.map(logs), theirs: theirs.log_l },
    ].map(({ ours, theirs: other }) => {
      const all = Float64Array.from(ours.flatMap((chain) => [...chain]));
      const own = essBulk(ours);
      const general = essBulk([other]);
      const error = Math.hypot(
        standardDeviation(all) / Math.sqrt(own),
        standardDeviation(other) / Math.sqrt(general),
      );
      return { own, general, apart: Math.abs(mean(all) - mean(other)) / error };
    });
    const least = Math.min(...compared.map(({ own }) => own));
    const theirLeast = Math.min(...compared.map(({ general }) => general));
    return {
      dates,
      seconds,
      least_effective_draws: least,
      effective_draws_per_second: least / seconds,
      general_seconds: theirs.seconds,
      general_least_effective_draws: theirLeast,
      general_effective_draws_per_second: theirLeast / theirs.seconds,
      times_as_fast: least / seconds / (theirLeast / theirs.seconds),
      means_apart: Math.max(...compared.map(({ apart }) => apart)),
    };
  });
}

const logs = (values: Float64Array): Float64Array => values.map(Math.log);

interface Theirs {
  ages: Float64Array[];
  log_s: Float64Array;
  log_l: Float64Array;
  seconds: number;
}

function inGeneralEngine(input: ReturnType<typeof steadyHole>, warmUp: number, draws: number): Theirs {
  const folder = mkdtempSync(join(tmpdir(), 'stillstand-general-'));
  const { sections } = SETTINGS;
  const thickness = input.bottom_m / sections;
  const numbers = (of: readonly number[]): string => `c(${of.join(', ')})`;
  const section = input.horizons.map(({ depth_m }) => Math.floor(depth_m[0]! / thickness));
  const data = {
    sections,
    thickness,
    dates: input.horizons.length,
    section: numbers(section.map((j) => j + 1)),
    below: numbers(input.horizons.map(({ depth_m }, i) => depth_m[0]! - section[i]! * thickness)),
    read: numbers(input.horizons.map(({ age }) => age.from_cal_bp + (age.density.length - 1) / 2)),
    read_sd: 60,
    ground0: input.surface.age_cal_bp,
    ground_sd: input.surface.sd_yr,
    mu0: Math.log(1000 / SETTINGS.accumulation_mm_yr),
    mu_sd: SETTINGS.accumulation_log_sd,
    log_s0: Math.log(SETTINGS.variation),
    log_s_sd: SETTINGS.variation_log_sd,
    log_l0: Math.log(SETTINGS.persistence_m),
    log_l_sd: SETTINGS.persistence_log_sd,
  };
  const file = (name: string, lines: readonly string[]): void =>
    writeFileSync(join(folder, name), `${lines.join('\n')}\n`);
  file(
    'data.R',
    Object.entries(data).map(([name, value]) => `${name} <- ${value}`),
  );
  file('start.R', [
    `mu <- ${data.mu0 - 0.2}`,
    `log_s <- ${data.log_s0}`,
    `log_l <- ${data.log_l0}`,
    '.RNG.name <- "base::Mersenne-Twister"',
    '.RNG.seed <- 1',
  ]);
  file('run', [
    `model in "${join(import.meta.dirname, 'general-engine.bug')}"`,
    'data in "data.R"',
    'compile, nchains(1)',
    'parameters in "start.R"',
    'initialize',
    `update ${warmUp}`,
    ...['log_s', 'log_l', 'age'].map((name) => `monitor ${name}`),
    `update ${draws}`,
    'coda *, stem("out")',
    'exit',
  ]);
  const started = performance.now();
  const run = spawnSync('jags', ['run'], { cwd: folder, encoding: 'utf8' });
  const seconds = (performance.now() - started) / 1000;
  try {
    const index = readFileSync(join(folder, 'outindex.txt'), 'utf8').trim().split('\n');
    const values = readFileSync(join(folder, 'outchain1.txt'), 'utf8')
      .trim()
      .split('\n')
      .map((line) => Number(line.trim().split(/\s+/)[1]));
    const drawsOf = (name: string): Float64Array => {
      const line = index.find((each) => each.startsWith(`${name} `));
      const [from, to] = line!.split(' ').slice(1).map(Number);
      return Float64Array.from(values.slice(from! - 1, to));
    };
    return {
      ages: input.horizons.map((_, i) => drawsOf(`age[${i + 1}]`)),
      log_s: drawsOf('log_s'),
      log_l: drawsOf('log_l'),
      seconds,
    };
  } catch (error) {
    throw new Error(`the general engine gave no draws:\n${run.stdout}${run.stderr}`, { cause: error });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
