/** The steps that take seconds: whoever computes may have them done elsewhere, from their plain values. */
import { agesOfHole, agesOfHoles } from './ages/hole-histories.ts';
import type { LongJob, Use, Values } from './runner/step.ts';
import { curveOfPoints, ratesOfPoints } from './sea/sea-level.ts';

const LONG_STEPS: readonly { name: string; compute: (values: never, use: Use) => unknown }[] = [
  curveOfPoints,
  ratesOfPoints,
  agesOfHole,
  agesOfHoles,
];

/** The holes whose ages against depth a job computes; null for any other job. */
export function holesOfAges({ step, values }: LongJob): readonly string[] | null {
  if (step === agesOfHole.name) return [(values as Parameters<typeof agesOfHole.compute>[0]).clocks.hole];
  if (step !== agesOfHoles.name) return null;
  return (values as Parameters<typeof agesOfHoles.compute>[0]).holes.map(({ clocks }) => clocks.hole);
}

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
