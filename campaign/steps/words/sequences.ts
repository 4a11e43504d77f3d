/** What the trace says of dates in sequence. */
import type { DateResult } from '@stillstand/campaign/results';
import type { NotCalibrated, Sequence } from '@stillstand/science/dating';
import type { Told } from '../runner/step.ts';

export const tellSequence = (sequence: string, answer: Sequence | NotCalibrated): Told => ({
  label: `Sequence ${sequence}`,
  how:
    answer.kind === 'matched'
      ? `${answer.members.length} dates matched together, chi-square ${answer.chi_square.toFixed(1)} with ${answer.degrees} degrees of freedom, p ${answer.p.toFixed(3)}`
      : answer.reason,
  value: answer.kind === 'matched' ? (answer.members[0]?.age.median_cal_bp ?? null) : null,
  sigma: answer.kind === 'matched' ? (answer.members[0]?.age.sd_yr ?? null) : null,
  unit: 'cal BP',
});

/** `sequence` is null for a date that stays as it is alone. */
export const tellInSequence = (labCode: string, sequence: string | null, result: DateResult): Told => ({
  label: `Date ${labCode}`,
  how:
    sequence === null
      ? 'alone: not in a sequence that could be matched'
      : `by the whole sequence ${sequence}`,
  value: result.median_cal_bp,
  sigma: result.sd_yr,
  unit: 'cal BP',
});
