/**
 * Extra scatter: every index point's height may be off by one more normal error of the same unknown sd, half-normal. Heights
 * of a whole region often scatter by more than their errors say; then no single one is an outlier.
 */
import { log, square } from '@stillstand/science/base';
import type { Problem } from '../problem/problem.ts';
import type { Observations } from '../process/observations.ts';

export interface Scatter {
  /** Scale of the prior, m; 0 for no scatter. */
  scale_m: number;
  sd_m: number;
  /** Log of the step in log sd, learnt. */
  log_step: number;
  /** Variances of the points without it, by kind of error. */
  plain_m2: Float64Array;
}

/** Of a chain. */
interface Scattering {
  problem: Problem;
  scatter: Scatter;
}

/** A problem of the chain's own, whose variances it may change; and what it needs to. */
export function scatterOf(problem: Problem): Scattering {
  const scale_m = problem.settings.extra_scatter_m;
  const { heightOutliers } = problem;
  const plain_m2 = heightOutliers.variance_m2;
  const scatter = { scale_m, sd_m: 0, log_step: log(0.5), plain_m2 };
  if (scale_m === 0) return { problem, scatter };
  return {
    problem: { ...problem, heightOutliers: { ...heightOutliers, variance_m2: plain_m2.slice() } },
    scatter,
  };
}

/** The same for a chain that goes on by itself. */
export function scatterApart({ problem, scatter }: Scattering): Scattering {
  const { heightOutliers } = problem;
  const variance_m2 = scatter.scale_m === 0 ? heightOutliers.variance_m2 : heightOutliers.variance_m2.slice();
  return {
    problem: { ...problem, heightOutliers: { ...heightOutliers, variance_m2 } },
    scatter: { ...scatter },
  };
}

/** Sets the sd, and with it the variances of all index points that are samples. */
export function setScatter(
  chain: Scattering & { errorKind: Uint8Array; o: Observations },
  sd_m: number,
): void {
  const { problem, scatter, errorKind, o } = chain;
  const { log_share, variance_m2 } = problem.heightOutliers;
  const kinds = log_share.length;
  scatter.sd_m = sd_m;
  problem.points.forEach(({ kind, of_gauge }, i) => {
    if (kind !== 'index' || of_gauge === true) return;
    for (let k = kinds * i; k < kinds * (i + 1); k++) variance_m2[k] = scatter.plain_m2[k]! + square(sd_m);
    o.variance_m2[i] = variance_m2[kinds * i + errorKind[i]!]!;
  });
}
