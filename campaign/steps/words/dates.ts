/** What the trace says of dates. */
import type { DateResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { NotCalibrated, SameEvent } from '@stillstand/science/dating';
import { type DoseRate, errorOf, type NoDoseRate } from '@stillstand/science/luminescence';
import type { Told } from '../runner/step.ts';

const dated = (label: string, how: string, result: DateResult | null): Told => ({
  label,
  how,
  value: result?.median_cal_bp ?? null,
  sigma: result?.sd_yr ?? null,
  unit: 'cal BP',
});

export const tellDate = (
  row: Row<'determinations'>,
  from: DateResult['age_from'],
  curve: string | null,
  result: DateResult | null,
): Told =>
  dated(
    `Date ${row.lab_code}`,
    curve === null
      ? `${row.method}, ${fromInWords(row, from)}${sharedInWords(row)}`
      : `${asReported(row)} calibrated on ${curve}${offsetInWords(row)}`,
    result,
  );

const fromInWords = ({ age_density }: Row<'determinations'>, from: DateResult['age_from']): string =>
  from === 'stated'
    ? 'as reported'
    : from === 'density'
      ? `every year as probable as ${age_density} has it`
      : 'computed from the measurements of its sample';

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

export const tellByDepth = (sample: string, hole: string, result: DateResult): Told =>
  dated(`Age of ${sample} by its depth`, `all clocks of ${hole} together`, result);

export const tellMeasuredAge = (
  labCode: string,
  made: { age_yr: number; error_yr: number } | object,
  isUsed: boolean,
): Told => ({
  label: `Age of ${labCode} by its measurements`,
  how: `computed from them, before the year of measurement${isUsed ? '' : '; for comparison'}`,
  value: 'age_yr' in made ? made.age_yr : null,
  sigma: 'age_yr' in made ? made.error_yr : null,
  unit: 'yr',
});

/** "dose factors: Guérin … (from memory); water factors: …". */
export const figuresInWords = (
  figures: readonly { name: string; source: string; from_memory: boolean }[],
): string =>
  figures
    .map(({ name, source, from_memory }) => `${name}: ${source}${from_memory ? ' (from memory)' : ''}`)
    .join('; ');

export const tellDoseRate = (labCode: string, factors: string, made: DoseRate | NoDoseRate): Told => ({
  label: `Dose rate of ${labCode}`,
  how:
    made.kind === 'rate'
      ? `contents, water and cosmic dose with the factors ${factors}; ${figuresInWords(made.used)}`
      : 'none can be computed from its contents',
  value: made.kind === 'rate' ? made.rate.value : null,
  sigma: made.kind === 'rate' ? errorOf(made.rate) : null,
  unit: 'Gy/ka',
});

export function asReported(row: Row<'determinations'>): string {
  if (row.value === null) return '';
  const numbers =
    row.qualifier === 'greater_than' || row.qualifier === 'less_than'
      ? `${row.qualifier === 'greater_than' ? '>' : '<'} ${row.value}`
      : `${row.value} ± ${row.error ?? 'no error'}`;
  if (row.method !== 'radiocarbon') return numbers;
  return row.reported_as === 'f14c' ? `F14C ${numbers}` : `${numbers} BP`;
}

function sharedInWords({ systematic_error, systematic_group, error_shape }: Row<'determinations'>): string {
  if (error_shape === 'uniform') return ', every year within its error as probable';
  if (systematic_error === null || systematic_group === null) return '';
  return `, ${Math.round(systematic_error)} yr of its error shared by ${systematic_group}`;
}

function offsetInWords(row: Row<'determinations'>): string {
  if (row.delta_r === null && row.delta_r_error === null) return '';
  return `, reservoir offset ${row.delta_r ?? 0} ± ${row.delta_r_error ?? 0}`;
}
