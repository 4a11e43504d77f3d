/** Contents of uranium, thorium and potassium from activities in Bq/kg. */
import type { DoseFactors, Element } from './dose-factors.ts';
import type { Measured } from './measured.ts';

/**
 * ppm of uranium or thorium, % of potassium, from Bq/kg of 238U, 232Th or 40K (of a daughter: only where it is in equilibrium).
 * Errors go with the value.
 */
export function contentOf(
  element: Element,
  { value, random, systematic }: Measured,
  factors: DoseFactors,
): Measured {
  const each = factors.specific_activity.figures[element];
  return { value: value / each, random: random / each, systematic: systematic / each };
}
