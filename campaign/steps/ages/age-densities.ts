/** Ages known as a curve of probability, from the rows of their table: by name, with what is wrong with them. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { type Calibration, weightedAge } from '@stillstand/science/dating';
import { type Complain, complaints } from '../complaint.ts';
import { type ByName, byName } from './by-name.ts';

type DensityRow = Row<'age_densities'>;

export interface AgeDensity {
  years: Calibration;
  /** Ages ascending. */
  rows: readonly DensityRow[];
}

export interface AgeDensities extends ByName<AgeDensity> {
  problems: readonly Problem[];
}

const UNTIL_THEN = 'No date has this age until then.';

export function ageDensities(campaign: Campaign): AgeDensities {
  const { problems, complain } = complaints<DensityRow>(campaign, 'age_densities', ({ density }) => density);
  const made = byName(campaign, 'age_densities', 'density', (_, rows) => {
    const sorted = rows.toSorted((a, b) => a.age_cal_bp - b.age_cal_bp);
    const years = isUsable(sorted, complain) ? weightedAge(sorted) : null;
    return years?.kind === 'calibrated' ? { years, rows: sorted } : null;
  });
  return { ...made, problems };
}

function isUsable(sorted: readonly DensityRow[], complain: Complain<DensityRow>): boolean {
  const [youngest, oldest] = [sorted[0]!, sorted.at(-1)!];
  const twice = sorted.filter((row, i) => i > 0 && row.age_cal_bp === sorted[i - 1]!.age_cal_bp);
  for (const row of twice)
    complain(
      row,
      'age-density-age-twice',
      'age_cal_bp',
      `${row.age_cal_bp} cal BP in two rows`,
      'one row for each calendar age',
      `Delete one of them. ${UNTIL_THEN}`,
    );
  if (youngest.age_cal_bp === oldest.age_cal_bp && twice.length === 0)
    complain(
      youngest,
      'age-density-too-short',
      'age_cal_bp',
      'one row',
      'at least two rows, from the youngest possible year to the oldest',
      `Add the others, or give the date a value and an error instead. ${UNTIL_THEN}`,
    );
  const isEmpty = sorted.every(({ weight }) => weight === 0);
  if (isEmpty)
    complain(
      youngest,
      'age-density-empty',
      'weight',
      'weights of 0 in all rows',
      'a weight above 0 in one row at least',
      `Enter how probable the years are, on any scale. ${UNTIL_THEN}`,
    );
  return twice.length === 0 && youngest.age_cal_bp < oldest.age_cal_bp && !isEmpty;
}
