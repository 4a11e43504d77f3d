/** Years that a table of probability leaves out, where it otherwise goes by equal steps. */
import { compare, type Decimal, negated, sum, writeDecimal } from './decimal.ts';

/** The years at either side of what is left out, and the step elsewhere; years before 1950. */
export interface Gap {
  from: Decimal;
  to: Decimal;
  step: Decimal;
}

/** Fewer years go by no steps. */
const LEAST_YEARS = 5;
/** So much of the steps are the same in a table that goes by equal ones. */
const MOSTLY = 0.6;

/** `ages` in any order, the same twice counted once. Empty where they go by no equal steps. */
export function gapsIn(ages: readonly Decimal[]): Gap[] {
  const sorted = ages.toSorted(compare).filter((age, i, all) => i === 0 || compare(age, all[i - 1]!) !== 0);
  if (sorted.length < LEAST_YEARS) return [];
  const steps = sorted.slice(1).map((age, i) => sum(age, negated(sorted[i]!)));
  const often = [...Map.groupBy(steps, (step) => writeDecimal(step)).values()].toSorted(
    (a, b) => b.length - a.length,
  )[0]!;
  const step = often[0]!;
  if (often.length < MOSTLY * steps.length) return [];
  return steps.flatMap((each, i) =>
    // One year left out, at the least.
    compare(each, sum(step, step)) >= 0 ? [{ from: sorted[i]!, to: sorted[i + 1]!, step }] : [],
  );
}
