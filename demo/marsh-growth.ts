/**
 * How the top of the outer marsh truly grew: from the base of its late peat to the day it was cored, fast at the top, where
 * peat is still loose, and slower the longer it has decayed and settled. Depths in m below the ground.
 */
import { exp } from '@stillstand/science/base';
import { LATE_PEAT_CAL_BP } from './section.ts';

/** What settling takes away with time: thickness of the loose top, m, and the time it takes, yr (invented). */
const LOOSE_M = 0.13;
const SETTLES_IN_YR = 70;

export interface MarshGrowth {
  /** Decimal year CE of the ground. */
  cored_ce: number;
  /** Depth of what was the ground so many years before coring, m. */
  depth_m(before_yr: number): number;
  /** Years before coring that a depth was the ground. */
  before_yr(depth_m: number): number;
  age_cal_bp(depth_m: number): number;
}

/** Growth of a peat whose base of `LATE_PEAT_CAL_BP` lies `thickness_m` below the ground. */
export function marshGrowth(thickness_m: number, cored_ce: number): MarshGrowth {
  const whole_yr = LATE_PEAT_CAL_BP.outer - 1950 + cored_ce;
  const slow = (thickness_m - LOOSE_M * (1 - exp(-whole_yr / SETTLES_IN_YR))) / whole_yr;
  const depth_m = (before_yr: number): number =>
    LOOSE_M * (1 - exp(-before_yr / SETTLES_IN_YR)) + slow * before_yr;
  // Bisection to 1e-6 yr: depth rises with age.
  const before_yr = (wanted_m: number): number => {
    let [young, old] = [0, whole_yr];
    while (old - young > 1e-6) {
      const middle = (young + old) / 2;
      if (depth_m(middle) < wanted_m) young = middle;
      else old = middle;
    }
    return (young + old) / 2;
  };
  return {
    cored_ce,
    depth_m,
    before_yr,
    age_cal_bp: (wanted_m) => before_yr(wanted_m) + 1950 - cored_ce,
  };
}
