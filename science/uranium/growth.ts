/** How 230Th/238U of a closed system grows with its age. */
import { exp, log } from '@stillstand/science/base';
import { type DecayConstants, LAMBDA232 } from './decay-constants.ts';
import type { ActivityRatios, InitialThorium } from './ratios.ts';

/** The ratios of older samples hardly change, yr. */
const OLDEST_YR = 1_000_000;

export interface Model {
  decay: DecayConstants;
  /** 234U above equilibrium, as a part. */
  excess: number;
  /** Activity of the detritus' 230Th when the sample formed, over 238U. */
  detrital: number;
}

/** Of ratios without a fault (`faultsOf`). */
export function growthOf(
  { th230_u238, u234_u238, th230_th232 }: ActivityRatios,
  decay: DecayConstants,
  initial: InitialThorium | null,
): Model {
  const th232_u238 = initial === null ? 0 : th230_u238.value / th230_th232!;
  const activity = (1e-6 * (initial?.atomic_ppm ?? 0) * decay.lambda230) / LAMBDA232;
  return { decay, excess: u234_u238.value - 1, detrital: th232_u238 * activity };
}

/** By how much 230Th/238U has grown for each 234U/238U above equilibrium. */
export function growthOfExcess({ lambda230, lambda234 }: DecayConstants, age: number): number {
  return (lambda230 / (lambda230 - lambda234)) * (1 - exp(-(lambda230 - lambda234) * age));
}

export function ratioAt({ decay, excess, detrital }: Model, age: number): number {
  const fading = exp(-decay.lambda230 * age);
  return 1 - fading + excess * growthOfExcess(decay, age) + detrital * fading;
}

export function slopeAt({ decay: { lambda230, lambda234 }, excess, detrital }: Model, age: number): number {
  return lambda230 * exp(-lambda230 * age) * (1 - detrital + excess * exp(lambda234 * age));
}

/** The oldest age to look at: where the ratio stops growing, as it does for 234U below equilibrium. */
export function lastOf({ decay, excess, detrital }: Model): number {
  if (excess >= 0) return OLDEST_YR;
  const turns = log((1 - detrital) / -excess) / decay.lambda234;
  return Math.max(0, Math.min(OLDEST_YR, turns));
}

/** The age of a ratio by halving, to the last digit; null beyond the reach, 0 for a ratio below that of no age. */
export function solved(model: Model, ratio: number): number | null {
  let low = 0;
  let high = lastOf(model);
  if (!(ratio < ratioAt(model, high))) return null;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (ratioAt(model, middle) < ratio) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
