/**
 * (log σ, log ℓ) by random walk on the likelihood, its shape learnt during warm-up only (Haario, Saksman & Tamminen 2001,
 * Bernoulli 7:223–242; step by Andrieu & Thoms 2008, Stat. Comput. 18:343–373).
 */
import { exp, log } from '@stillstand/science/base';
import { logLikelihood } from '../process/likelihood.ts';
import { copyInto, type Rates } from '../process/rates.ts';
import type { Chain } from './chain.ts';
import { setScale } from './rates.ts';

/** Steps in (σ, ℓ) a sweep. */
const STEPS = 3;

/** Log posterior of (log σ, log ℓ), the breaks and the ages, up to what none changes: of where the chain stands, or with the
 * rates it proposes. */
export function logPosterior(
  chain: Chain,
  log_rate_sd: number = chain.log_rate_sd,
  log_length: number = chain.log_length,
  rates: Rates = chain.rates,
): number {
  const { priors } = chain.problem.settings;
  const z = rates.sd_mm_yr / priors.rate_sd_scale_mm_yr;
  const l = (log_length - log(priors.length_median_ka)) / priors.length_log_sd;
  const prior = log_rate_sd - 0.5 * (z * z + l * l);
  const { o } = chain;
  return prior + logLikelihood(o, o.height_m, 0, rates, chain.work);
}

/** Returns the log posterior of where the chain then stands. */
export function stepHyperparameters(chain: Chain): number {
  const { stream, shape, centreOfWalk } = chain;
  let current = logPosterior(chain);
  for (let step = 0; step < STEPS; step++) {
    const scale = exp(chain.logScale);
    const l00 = Math.sqrt(shape[0]!);
    const l10 = shape[1]! / l00;
    const l11 = Math.sqrt(Math.max(1e-8, shape[2]! - l10 * l10));
    const e0 = scale * stream.normal();
    const e1 = scale * stream.normal();
    const log_rate_sd = chain.log_rate_sd + l00 * e0;
    const log_length = chain.log_length + l10 * e0 + l11 * e1;
    // Beyond any use, and where exp would lose its meaning.
    const proposed =
      Math.abs(log_rate_sd) < 25 && Math.abs(log_length) < 25
        ? propose(chain, log_rate_sd, log_length)
        : -Infinity;
    const accepted = log(stream.uniform()) < proposed - current;
    if (accepted) {
      chain.log_rate_sd = log_rate_sd;
      chain.log_length = log_length;
      setScale(chain.rates, chain.problem, log_rate_sd, log_length);
      current = proposed;
    }
    if (chain.adapting) {
      const gain = Math.min(0.3, 3 / (chain.sweeps + 10));
      chain.logScale += gain * ((accepted ? 1 : 0) - 0.35);
      const d0 = chain.log_rate_sd - centreOfWalk[0]!;
      const d1 = chain.log_length - centreOfWalk[1]!;
      centreOfWalk[0] = centreOfWalk[0]! + gain * d0;
      centreOfWalk[1] = centreOfWalk[1]! + gain * d1;
      shape[0] = Math.max(1e-4, shape[0]! + gain * (d0 * d0 - shape[0]!));
      shape[1] = shape[1]! + gain * (d0 * d1 - shape[1]!);
      shape[2] = Math.max(1e-4, shape[2]! + gain * (d1 * d1 - shape[2]!));
      // Kept a covariance where few draws are nearly aligned.
      const most = 0.99 * Math.sqrt(shape[0]! * shape[2]!);
      shape[1] = Math.min(most, Math.max(-most, shape[1]!));
    }
  }
  return current;
}

function propose(chain: Chain, log_rate_sd: number, log_length: number): number {
  const { proposed, rates, problem } = chain;
  copyInto(rates, proposed);
  setScale(proposed, problem, log_rate_sd, log_length);
  return logPosterior(chain, log_rate_sd, log_length, proposed);
}
