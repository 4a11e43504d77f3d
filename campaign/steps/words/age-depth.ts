/** What the trace says of age against depth. */
import type { HoleHistory } from '@stillstand/campaign/results';
import type { Told } from '../runner/step.ts';

export const tellAgeDepth = (hole: string, dates: number, result: HoleHistory | null): Told => ({
  label: `Age–depth model of ${hole}`,
  how: `accumulation that persists with depth, through ${dates} dates`,
  value: result?.clocks.length ?? null,
  sigma: null,
  unit: 'dates',
});
