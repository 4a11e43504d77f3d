/** What the trace says of age against depth. */
import type { AgeDepthResult } from '@stillstand/campaign/results';
import type { Told } from '../step.ts';

export const tellAgeDepth = (hole: string, dates: number, result: AgeDepthResult | null): Told => ({
  label: `Age–depth model of ${hole}`,
  how: `accumulation that persists with depth, through ${dates} dates`,
  value: result?.dates.length ?? null,
  sigma: null,
  unit: 'dates',
});
