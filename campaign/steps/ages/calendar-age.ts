/** Ages reported in calendar years: the shape of their error, and the part of it that dates measured together share. */
import type { Row } from '@stillstand/campaign/tables';
import type { AgeConstraint } from '@stillstand/science/clocks';
import {
  before1950,
  type Calibration,
  evenAge,
  type NotCalibrated,
  normalAge,
} from '@stillstand/science/dating';
import type { Complain } from '../complaint.ts';

/** A determination with an age and its 1 sigma. */
export type WithAge = Row<'determinations'> & { value: number; error: number };

const isEven = ({ error_shape }: WithAge): boolean => error_shape === 'uniform';

/** Methods whose result is measured: none is known exactly. A historic year may be. */
const MEASURED: readonly WithAge['method'][] = ['luminescence', 'u_series', 'lead210'];

/** The age of a determination by any method but radiocarbon. */
export function calendarAge(row: WithAge): Calibration | NotCalibrated {
  const age = before1950(row.value, row.reference_year);
  if (MEASURED.includes(row.method) && !(row.error > 0) && row.qualifier === null)
    return {
      kind: 'not_a_number',
      reason: `an error above 0 for ${row.method === 'u_series' ? 'a uranium-series' : `a ${row.method}`} age`,
    };
  return isEven(row) ? evenAge(age, row.error) : normalAge(age, row.error);
}

/** The same as the curve takes it where it is the age of its layer. */
export function calendarConstraint(row: WithAge, { from_cal_bp, density }: Calibration): AgeConstraint {
  if (isEven(row)) return { kind: 'density', from_cal_bp, density };
  const shared = sharedPart(row);
  return {
    kind: 'normal',
    mean_cal_bp: before1950(row.value, row.reference_year),
    sd_yr: Math.max(row.error, 1),
    ...(shared === null ? {} : { systematic: shared }),
  };
}

/** The part of the error that dates of one group share; null for none, or one that cannot be used. */
function sharedPart(row: WithAge): { group: string; sd_yr: number } | null {
  const { systematic_error: sd_yr, systematic_group: group } = row;
  if (row.method === 'radiocarbon' || isEven(row) || group === null || sd_yr === null) return null;
  return sd_yr > 0 && sd_yr <= row.error ? { group, sd_yr } : null;
}

/** Whether a part of its error is shared with others. */
export const isShared = (row: WithAge): boolean => sharedPart(row) !== null;

/** As a problem says it: a part that was computed has many digits. */
const said = (yr: number): string => String(Math.round(10 * yr) / 10);

/** What is wrong with, or missing of, the shared part of an error; the age is computed with its whole error all the same. */
export function complainOfSharedPart(row: WithAge, isDensity: boolean, complain: Complain<WithAge>): void {
  const { systematic_error: part, systematic_group: group } = row;
  if (part === null && group === null) return;
  const unused = (found: string, expected: string, fix: string): void =>
    complain(row, 'systematic-error-unused', 'systematic_error', found, expected, fix, 'warning');
  const whole = 'The whole error is taken as this date’s own until then.';
  const found = part === null ? (group ?? '') : said(part);
  if (row.method === 'radiocarbon') {
    unused(
      found,
      'none for radiocarbon: what such dates share is the reservoir offset',
      'Use the error of ΔR and its group; the calibration takes care of its curve. It is not used.',
    );
  } else if (isDensity) {
    unused(
      found,
      'none with an age density, which is whole as it is',
      `Remove it, or give the date a value and an error instead. ${whole}`,
    );
  } else if (isEven(row)) {
    unused(found, 'none with an error that is uniform', `Leave it out, or call the error normal. ${whole}`);
  } else if (part === null) {
    unused('', `the part of the error that group ${group} shares`, `Fill it in, 0 for none. ${whole}`);
  } else if (part > row.error) {
    complain(
      row,
      'systematic-above-error',
      'systematic_error',
      `${said(part)} of an error of ${said(row.error)} yr`,
      'at most the error: the error is the whole, its systematic part included',
      `State the whole error, or correct the part. ${whole}`,
    );
  } else if (group === null && part > 0) {
    unused(
      found,
      'the name of a group that shares it, in systematic_group',
      `Give dates measured together one name. ${whole}`,
    );
  }
}
