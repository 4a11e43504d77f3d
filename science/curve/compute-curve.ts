/** The smooth curve: chains run, watched until they agree, and summarised. docs/methods/curve.md. */
import { randomStream } from '@stillstand/science/base';
import { startChain, sweep } from './chain.ts';
import { emptyDraws, halveDraws, keepDraw, reports } from './draws.ts';
import type { CurvePoint, CurveResult, CurveSettings } from './model.ts';
import { makeProblem } from './problem.ts';
import { reported, unsettled } from './reported.ts';
import { summariseCurve } from './summarise-curve.ts';
import { holdLimits, warmUp } from './warm-up.ts';

const WARM_UP = 300;
/** The chains are asked whether they agree at these shares of the draws to be kept. */
const ASKED_AT = [0.5, 0.75, 1];
/** How often the sweeps between kept draws, one at first, may be doubled while they do not. */
const DOUBLINGS = 5;
/** After so many paths turned away one after another the loose limits are held after all. */
const PATIENCE = 40;
/** Sweeps between tellings of progress: a fraction of a second. */
const TOLD_EVERY = 20;

/** A first look at a curve: few sweeps, run once, whether the chains agree or not. Never to be reported. */
interface FirstLook {
  warm_up: number;
}

/**
 * Level (m) and rate (mm/yr) through time from index and limiting points with uncertain ages.
 *
 * Pure and seeded: the same points and settings give the same numbers. Points that cannot be used (`unusablePoints`) are
 * left out and named in the remarks. `onProgress` hears of sweeps done of those planned; the plan grows while the chains
 * disagree, up to 16-fold. It may throw to give the computation up. `firstLook` warms up shorter and never goes on.
 * @throws RangeError where settings are no settings (no chain, fewer than 4 draws, a prior scale of 0).
 */
export function computeCurve(
  points: readonly CurvePoint[],
  settings: CurveSettings,
  onProgress?: (done: number, of: number) => void,
  firstLook: FirstLook | null = null,
): CurveResult {
  demandSettings(settings);
  const warmUpSweeps = firstLook?.warm_up ?? WARM_UP;
  const problem = makeProblem(points, settings);
  const r = reports(problem);
  const stream = randomStream(settings.seed).split('curve');
  const chains = Array.from({ length: settings.chains }, (_, c) => startChain(problem, stream.split(c)));
  const draws = chains.map(() => emptyDraws(problem));

  let planned = settings.chains * (warmUpSweeps + settings.draws);
  let done = 0;
  let told = 0;
  const tell = (): void => {
    planned = Math.max(planned, done);
    if (done > told) onProgress?.(done, planned);
    told = done;
  };
  const count = (): void => {
    done += 1;
    if (done % TOLD_EVERY === 0) tell();
  };
  for (const chain of chains) warmUp(chain, warmUpSweeps, count);

  let kept = 0;
  let thin = 1;
  const keepUpTo = (to: number): void => {
    planned = Math.max(planned, done + settings.chains * thin * (to - kept));
    chains.forEach((chain, c) => {
      for (let k = kept; k < to; k++) {
        for (let turnedAway = 0; ; turnedAway++) {
          for (let s = 0; s < thin; s++) {
            sweep(chain);
            count();
          }
          if (keepDraw(chain, r, draws[c]!, k)) break;
          if (turnedAway === PATIENCE) holdLimits(chain, chain.limits.points, r.path);
        }
      }
    });
    kept = to;
  };
  const finish = (): CurveResult => {
    planned = done;
    tell();
    const sweeps = Math.max(...chains.map((chain) => chain.sweeps));
    return summariseCurve(problem, draws, all, kept, sweeps);
  };
  let all = reported(problem, draws, kept);
  if (firstLook !== null) {
    keepUpTo(settings.draws);
    all = reported(problem, draws, kept);
    return finish();
  }
  let doubtful: string | null = null;
  for (let doubling = 0; ; doubling++) {
    for (const share of ASKED_AT) {
      const to = Math.ceil(share * settings.draws);
      if (to <= kept) continue;
      keepUpTo(to);
      all = reported(problem, draws, kept);
      doubtful = unsettled(all, doubtful);
      if (doubtful === null) return finish();
    }
    if (doubling === DOUBLINGS) return finish();
    for (const d of draws) halveDraws(d);
    kept = settings.draws >> 1;
    thin *= 2;
  }
}

function demandSettings(s: CurveSettings): void {
  const { priors, tie } = s;
  const demand = (fine: boolean, came: string, expected: string): void => {
    if (!fine) throw new RangeError(`computeCurve: ${came}; expected ${expected}`);
  };
  demand(Number.isInteger(s.chains) && s.chains >= 1, `${s.chains} chains`, 'one or more');
  demand(Number.isInteger(s.draws) && s.draws >= 8, `${s.draws} draws`, '8 or more');
  for (const name of ['level_sd_m', 'rate_sd_scale_mm_yr', 'length_median_ka', 'length_log_sd'] as const)
    demand(priors[name] > 0 && priors[name] < Infinity, `${name} = ${priors[name]}`, 'a number above 0');
  demand(Number.isFinite(priors.rate_mean_mm_yr), `rate_mean_mm_yr = ${priors.rate_mean_mm_yr}`, 'a number');
  if (tie !== null)
    demand(tie.sd_m > 0 && Number.isFinite(tie.year_ce + tie.sd_m), `tie sd ${tie.sd_m} m`, 'above 0');
  for (const i of s.intervals)
    demand(
      i.older_cal_bp > i.younger_cal_bp,
      `interval ${i.older_cal_bp} to ${i.younger_cal_bp}`,
      'older > younger',
    );
}
