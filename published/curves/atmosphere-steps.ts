import type { EncodedCurve } from './encoded-curve.ts';

/** Rows of IntCal20 and SHCal20 alike: every year to 5,000 cal BP, then wider (Reimer et al. 2020, Hogg et al. 2020). */
export const atmosphereSteps: EncodedCurve['steps'] = [
  [1, 5000],
  [5, 2000],
  [10, 1000],
  [20, 1500],
];
