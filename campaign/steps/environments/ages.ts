/** Ages that are asked about: those of the probabilities, and those whose sections are drawn. */
import type { HoleHistory } from '@stillstand/campaign/results';

/** Ages from the youngest to the oldest, about so many. */
const ABOUT = 300;
/** Beyond the oldest date, as a share of all the time. */
const MARGIN = 0.04;
const STEPS = [1, 2, 5].flatMap((n) => [1, 10, 100, 1000].map((ten) => n * ten)).sort((a, b) => a - b);

/** From the youngest ground to a little beyond the oldest date of any hole, at a round step. */
export function agesAsked(histories: readonly HoleHistory[]): number[] {
  const youngest = Math.min(...histories.map(({ age_cal_bp }) => age_cal_bp.lower95[0]!));
  const oldest = Math.max(
    ...histories.flatMap(({ age_cal_bp, clocks }) =>
      clocks.length === 0 ? [age_cal_bp.median.at(-1)!] : clocks.map((clock) => clock.age_cal_bp.upper95),
    ),
  );
  const end = oldest + MARGIN * (oldest - youngest);
  const step = STEPS.find((each) => (end - youngest) / each <= ABOUT) ?? STEPS.at(-1)!;
  const first = Math.floor(youngest / step);
  return Array.from({ length: Math.ceil(end / step) - first + 1 }, (_, i) => (first + i) * step);
}
