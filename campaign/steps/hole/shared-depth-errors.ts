/** What the samples of a hole share of their depth errors. */
import { mean, square, standardDeviation } from '@stillstand/science/base';
import { step } from '../runner/step.ts';

/** 1 sigma, m. */
export interface Loading {
  own: number;
  shared: number;
}

export const depthErrors = step('shared depth errors', ({ draws }: { draws: readonly Float64Array[] }) =>
  sharedLoadings(draws),
);

/**
 * How much of each sample's depth error the hole shares: the covariance of its draws with the mean of all samples'
 * draws over that mean's sd; the rest is its own. Depth draws of one hole belong together, so this is one factor that
 * moves them together (a single factor; see docs/methods/points.md).
 */
export function sharedLoadings(draws: readonly Float64Array[]): Loading[] {
  const sds = draws.map((d) => standardDeviation(d));
  if (draws.length < 2) return sds.map((own) => ({ own, shared: 0 }));
  const n = draws[0]!.length;
  const common = new Float64Array(n);
  for (const d of draws) for (let i = 0; i < n; i++) common[i] = common[i]! + d[i]! / draws.length;
  const commonMean = mean(common);
  const commonSd = standardDeviation(common);
  return draws.map((d, k) => {
    if (!(commonSd > 0)) return { own: sds[k]!, shared: 0 };
    const ownMean = mean(d);
    let covariance = 0;
    for (let i = 0; i < n; i++) covariance += ((d[i]! - ownMean) * (common[i]! - commonMean)) / (n - 1);
    const shared = Math.min(sds[k]!, Math.max(0, covariance / commonSd));
    return { own: Math.sqrt(Math.max(0, square(sds[k]!) - square(shared))), shared };
  });
}
