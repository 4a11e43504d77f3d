/**
 * A general engine for Bayesian models, JAGS (Plummer 2003, Proc. DSC; in Debian), given a model of ours: one chain on one
 * core, warm-up counted.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Effective draws of what settles last, by both. */
export interface BesideGeneralEngine {
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

export function beside(
  ours: { seconds: number; least: number },
  theirs: { seconds: number; least: number },
  means_apart: number,
): BesideGeneralEngine {
  return {
    seconds: ours.seconds,
    least_effective_draws: ours.least,
    effective_draws_per_second: ours.least / ours.seconds,
    general_seconds: theirs.seconds,
    general_least_effective_draws: theirs.least,
    general_effective_draws_per_second: theirs.least / theirs.seconds,
    times_as_fast: ours.least / ours.seconds / (theirs.least / theirs.seconds),
    means_apart,
  };
}

export const isGeneralEngineThere = (): boolean =>
  spawnSync('jags', [], { input: 'exit\n' }).error === undefined;

/** `c(1, 2)`. */
export const numbersInR = (of: readonly number[]): string => `c(${of.join(', ')})`;

interface Asked {
  /** File of the model. */
  model: string;
  data: Readonly<Record<string, string | number>>;
  start: Readonly<Record<string, string | number>>;
  monitored: readonly string[];
  warmUp: number;
  draws: number;
}

/** Draws by their names there, such as `age[1]`; and how long all of it took. */
export function inGeneralEngine({ model, data, start, monitored, warmUp, draws }: Asked): {
  drawsOf: (name: string) => Float64Array;
  seconds: number;
} {
  const folder = mkdtempSync(join(tmpdir(), 'stillstand-general-'));
  const file = (name: string, lines: readonly string[]): void =>
    writeFileSync(join(folder, name), `${lines.join('\n')}\n`);
  const assigned = (of: Asked['data']): string[] =>
    Object.entries(of).map(([name, value]) => `${name} <- ${value}`);
  file('data.R', assigned(data));
  file('start.R', [...assigned(start), '.RNG.name <- "base::Mersenne-Twister"', '.RNG.seed <- 1']);
  file('run', [
    `model in "${model}"`,
    'data in "data.R"',
    'compile, nchains(1)',
    'parameters in "start.R"',
    'initialize',
    `update ${warmUp}`,
    ...monitored.map((name) => `monitor ${name}`),
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
    return { drawsOf, seconds };
  } catch (error) {
    throw new Error(`the general engine gave no draws:\n${run.stdout}${run.stderr}`, { cause: error });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
