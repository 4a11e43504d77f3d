/**
 * A point's error parts sorted into what the curve model keeps apart: one independent normal, one uniform, one
 * one-sided, and the shared groups.
 */
import { square } from '@stillstand/science/base';
import type { HeightError } from './error.ts';

/** 1 sigma, metres; the fields of a curve point. */
export interface CurveParts {
  /** Independent normal part, > 0. */
  sigma_m: number;
  /** Half width of the independent uniform part. */
  half_range_m: number;
  /** Scale of the half-normal lowering. */
  lowering_m: number;
  /** Below 0 where the group's error acts the other way round. */
  shared: { group: string; sigma_m: number }[];
}

/** Least independent error of a height, metres: what a staff can be read to. Keeps the model proper. */
const LEAST_SIGMA_M = 0.001;

/**
 * Index points keep their widest own uniform part as a uniform, and their one-sided parts as one lowering of the
 * point's own with scale root-sum-square; all other parts enter as normals of the same sigma. Limiting points keep
 * normals only: a bound has no range, and a lowering (which loosens a marine bound but makes a terrestrial one too
 * strict) widens it by its root mean square. Parts of one group within a point add root-sum-square: the group is one
 * constant, in the same proportion at every point. A group acts the other way round where most of its part here does.
 */
export function forCurve(
  errors: readonly HeightError[],
  kind: 'index' | 'terrestrial' | 'marine',
): CurveParts {
  const widest = kind === 'index' ? widestUniform(errors) : null;
  let own = 0;
  let lowering = 0;
  const groups = new Map<string, { variance: number; signed: number }>();
  for (const error of errors) {
    const variance = square(error.sigma_m);
    if (variance === 0 || error === widest) continue;
    if (error.shape === 'one_sided' && kind === 'index') lowering += variance;
    else if (error.shared_group === null) own += variance;
    else {
      const sum = groups.get(error.shared_group) ?? { variance: 0, signed: 0 };
      sum.variance += variance;
      sum.signed += error.reversed === true ? -variance : variance;
      groups.set(error.shared_group, sum);
    }
  }
  return {
    sigma_m: Math.max(LEAST_SIGMA_M, Math.sqrt(own)),
    half_range_m: widest === null ? 0 : Math.sqrt(3) * widest.sigma_m,
    lowering_m: Math.sqrt(lowering),
    shared: [...groups].map(([group, { variance, signed }]) => ({
      group,
      sigma_m: signed < 0 ? -Math.sqrt(variance) : Math.sqrt(variance),
    })),
  };
}

function widestUniform(errors: readonly HeightError[]): HeightError | null {
  let widest: HeightError | null = null;
  for (const error of errors) {
    if (error.shape !== 'uniform' || error.shared_group !== null || error.sigma_m === 0) continue;
    if (widest === null || error.sigma_m > widest.sigma_m) widest = error;
  }
  return widest;
}
