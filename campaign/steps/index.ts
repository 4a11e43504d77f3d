/** The computation of a campaign: its steps in order, memo and trace. */
export { LEAST_DATES } from './age-depth.ts';
export { COMPUTATION, type Computation, type ComputeOptions, computeCampaign } from './compute.ts';
export { chooseSites, countedSites, siteName } from './curve-sites.ts';
export { type AgeRange, ageOf, type CurveLabel, curvesNeeded, type Published } from './dates.ts';
export { doLongJob } from './long-jobs.ts';
export type { Memo } from './runner.ts';
export { type SiteTide, siteTide, TIDE_TABLE_FLAG } from './site-tide.ts';
export type { LongJob } from './step.ts';
export type { Trace } from './trace.ts';
export { tellInterval } from './words/curve.ts';
