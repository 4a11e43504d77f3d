/** Whether the heights ask for an abrupt change that a smooth rate does not have. */
import type { CurveResult } from './result.ts';

/**
 * Log of how many times better one break must suit the heights. Draws of a smooth curve seldom visit what a sea with a break
 * would need, so that the ratio is too small rather than too large. Set so that smooth seas of 40 points are named once in 20
 * at most and jumps of 3 m four times in five (docs/methods/curve.md).
 */
const ABRUPT = 1.5;

/** False where the model has changes of its own, and in a preview. */
export const isAbrupt = ({ one_break }: Pick<CurveResult, 'one_break'>): boolean =>
  one_break !== null && one_break.log_evidence_ratio > ABRUPT;
