/** The steps that take seconds: whoever computes may have them done elsewhere, from their plain values. */
import { agesOfHole } from './ages/age-depth.ts';
import type { LongJob, Use, Values } from './runner/step.ts';
import { curveOfPoints, ratesOfPoints } from './sea/sea-level.ts';

const LONG_STEPS: readonly { name: string; compute: (values: never, use: Use) => unknown }[] = [
  curveOfPoints,
  ratesOfPoints,
  agesOfHole,
];

/** The hole whose ages against depth a job computes; null for any other job. */
export const holeOfAges = ({ step, values }: LongJob): string | null =>
  step === agesOfHole.name ? (values as Parameters<typeof agesOfHole.compute>[0]).clocks.hole : null;

/**
 * @returns what the memo keeps under the job's key
 * @throws RangeError for a step that is none of them; what the step throws
 */
export function doLongJob(
  { step, values }: LongJob,
  onProgress?: (done: number, of: number) => void,
): unknown {
  const found = LONG_STEPS.find(({ name }) => name === step);
  if (found === undefined) throw new RangeError(`no long step is named ${step}`);
  const compute = found.compute as (values: Values, use: Use) => unknown;
  return compute(values, { onProgress });
}
