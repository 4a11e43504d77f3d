/** What the trace says of dates. */
import type { DateResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { NotCalibrated, SameEvent } from '@stillstand/science/dating';
import type { Told } from '../runner/step.ts';

const dated = (label: string, how: string, result: DateResult | null): Told => ({
  label,
  how,
  value: result?.median_cal_bp ?? null,
  sigma: result?.sd_yr ?? null,
  unit: 'cal BP',
});

export const tellDate = (row: Row<'determinations'>, curve: string | null, result: DateResult | null): Told =>
  dated(
    `Date ${row.lab_code}`,
    curve === null
      ? `${row.method}, as reported`
      : `${asReported(row)} calibrated on ${curve}${offsetInWords(row)}`,
    result,
  );

export const tellPooled = (group: string, result: DateResult | null): Told =>
  dated(`Pooled ${group}`, 'weighted mean, then calibrated', result);

export const tellEvent = (event: string, answer: SameEvent | NotCalibrated): Told => ({
  label: `Event ${event}`,
  how: answer.kind === 'dated' ? 'ages of different things of one event, together' : answer.reason,
  value: answer.kind === 'dated' ? answer.age.median_cal_bp : null,
  sigma: answer.kind === 'dated' ? answer.age.sd_yr : null,
  unit: 'cal BP',
});

export const tellBetween = (name: string, result: DateResult): Told =>
  dated(`Age between ${name}`, 'every year between the two dates as likely', result);

export function asReported(row: Row<'determinations'>): string {
  const numbers =
    row.qualifier === 'greater_than' || row.qualifier === 'less_than'
      ? `${row.qualifier === 'greater_than' ? '>' : '<'} ${row.value}`
      : `${row.value} ± ${row.error}`;
  if (row.method !== 'radiocarbon') return numbers;
  return row.reported_as === 'f14c' ? `F14C ${numbers}` : `${numbers} BP`;
}

function offsetInWords(row: Row<'determinations'>): string {
  if (row.delta_r === null && row.delta_r_error === null) return '';
  return `, reservoir offset ${row.delta_r ?? 0} ± ${row.delta_r_error ?? 0}`;
}
