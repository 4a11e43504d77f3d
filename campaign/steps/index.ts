/** The computation of a campaign: its steps in order, memo and trace. */
export { LEAST_DATES, LEAST_WITH_GROUND } from './ages/age-depth.ts';
export {
  type AgeRange,
  ageOf,
  curveNamed,
  curvesNeeded,
  isOfSea,
  type Published,
} from './ages/dates.ts';
export { givenOnScreen } from './ages/given-on-screen.ts';
export { type OwnCurves, ownCurves } from './ages/own-curves.ts';
export { ownReservoirs } from './ages/own-reservoirs.ts';
export { reservoirDoubts } from './ages/reservoir-doubts.ts';
export { isForOffset, offeredOffset } from './ages/reservoirs.ts';
export { COMPUTATION, type Computation, type ComputeOptions, computeCampaign } from './compute.ts';
export { type GaugeRecord, gaugeRecords, referencesFor } from './heights/gauge-record.ts';
export { type LoopBefore, loopBefore } from './heights/loop-before.ts';
export { type SiteTide, siteTide, TIDE_TABLE_FLAG } from './heights/site-tide.ts';
export { doLongJob, holesOfAges } from './long-jobs.ts';
export type { Memo } from './runner/runner.ts';
export type { LongJob } from './runner/step.ts';
export type { Trace } from './runner/trace.ts';
export { chosenNumber } from './sea/chosen-number.ts';
export { chooseCurves, countedSites } from './sea/curve-sites.ts';
export { sectionAsResult } from './section/as-result.ts';
