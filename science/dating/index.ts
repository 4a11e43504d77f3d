/** Laboratory results to calendar ages. */
export type { YearlyCurve } from './yearly-curve.ts';
