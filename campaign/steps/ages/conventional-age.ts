/** A radiocarbon result as conventional age; F14C with it where it was reported so, or grew after 1950. */
import type { Row } from '@stillstand/campaign/tables';
import { ageFromF14C, f14cFromAge, type NotCalibrated } from '@stillstand/science/dating';

export interface Conventional {
  c14_age: number;
  error_yr: number;
  f14c: number | null;
  f14c_sigma: number | null;
}

export const isLimit = ({ qualifier }: Row<'determinations'>): boolean =>
  qualifier === 'greater_than' || qualifier === 'less_than';

export function conventionalAge(row: Row<'determinations'>): Conventional | NotCalibrated {
  const { value } = row;
  if (value === null || row.error === null)
    return { kind: 'not_a_number', reason: 'no age with its error; expected both' };
  // A limit states no error: that of the curve is left.
  const error = isLimit(row) && row.error === 0 ? 1 : row.error;
  if (row.reported_as !== 'f14c') {
    const modern = value < 0 ? f14cFromAge(value, error) : { f14c: null, f14c_sigma: null };
    return { c14_age: value, error_yr: error, ...modern };
  }
  const age = ageFromF14C(value, error);
  if (age.kind === 'not_a_number') return age;
  if (age.kind === 'older_than') {
    const limit = Math.round(age.c14_age);
    return {
      kind: 'beyond_curve',
      reason: `F14C ${value} ± ${error} is below 2 sigma: it says only older than ${limit} 14C yr BP`,
    };
  }
  return { c14_age: age.c14_age, error_yr: age.error_yr, f14c: value, f14c_sigma: error };
}
