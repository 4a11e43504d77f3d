/**
 * How much each point holds a rate: the relative growth of its variance as the point's height loses weight,
 *   −d log Var(g)/d log w = −Cov(log p(y | f, t), (g − E g)²)/Var(g),
 * from the kept draws (power scaling of one likelihood factor: Kallioinen, Paananen, Bürkner & Vehtari 2024, Stat. Comput.
 * 34:57). A local measure, for ranking: it needs no weights, which would fail just for the points that matter most.
 */
import { mean } from '@stillstand/science/base';

/** For each point, from its column of log factors; below 0 where the point widens the band. */
export function variancePulls(rate: Float64Array, logFactor: readonly Float64Array[]): number[] {
  const centre = mean(rate);
  const squares = rate.map((g) => (g - centre) ** 2);
  const variance = mean(squares);
  return logFactor.map((factor) => {
    const middle = mean(factor);
    let sum = 0;
    for (let k = 0; k < factor.length; k++) sum += (factor[k]! - middle) * (squares[k]! - variance);
    return -sum / (factor.length * variance);
  });
}

/** The same, scaled so that the largest is 1; 0 where a point widens the band or does nothing. */
export function influences(headline: Float64Array, logFactor: readonly Float64Array[]): number[] {
  const raw = variancePulls(headline, logFactor).map((pull) => Math.max(0, pull));
  const largest = Math.max(0, ...raw);
  return raw.map((x) => (largest > 0 && largest < Infinity ? x / largest : 0));
}
