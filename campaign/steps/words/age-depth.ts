/** What the trace says of age against depth. */
import type { HoleHistory } from '@stillstand/campaign/results';
import type { Told } from '../runner/step.ts';

export const tellAgeDepth = (hole: string, dates: number, result: HoleHistory | null): Told => ({
  label: `Age–depth model of ${hole}`,
  how: `accumulation that persists with depth, through ${dates} dates${withoutBeds(result?.beds.length ?? 0)}`,
  value: result?.clocks.length ?? null,
  sigma: null,
  unit: 'dates',
});

const withoutBeds = (beds: number): string =>
  beds === 0 ? '' : `; ${beds === 1 ? 'a bed' : `${beds} beds`} laid down at once left out`;
