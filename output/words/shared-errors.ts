/** Errors that dates share in ages against depth, in words. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { groupOfDoses } from '@stillstand/science/dating';
import { counted, printed, signed } from './number.ts';

type Shared = HoleHistory['shared'][number];

/** "the reservoir offset shells", "the systematic error of the dates lamp". */
function sharedErrorCalled({ group }: Pick<Shared, 'group'>): string {
  const doses = groupOfDoses(group);
  return doses === null ? `the reservoir offset ${group}` : `the systematic error of the dates ${doses}`;
}

/** "+42 ± 60 14C yr (2σ), stated ±200": what the dates made of it. */
function sharedErrorFound({
  group,
  sigma_yr,
  shift_yr,
}: Pick<Shared, 'group' | 'sigma_yr' | 'shift_yr'>): string {
  const unit = groupOfDoses(group) === null ? '14C yr' : 'yr';
  return `${signed(shift_yr.mean, 0)} ± ${printed(2 * shift_yr.sd, 0)} ${unit} (2σ), stated ±${printed(2 * sigma_yr, 0)}`;
}

/** "6 dates of H1 share the reservoir offset shells with dates of H2: its error is …". */
export function sharedErrorInWords(hole: string, error: Shared): string {
  const { dates, holes } = error;
  const others = holes.length === 0 ? '' : ` with dates of ${holes.join(', ')}`;
  return `${counted(dates.length, 'date')} of ${hole} ${dates.length === 1 ? 'shares' : 'share'} ${sharedErrorCalled(error)}${others}: the error is ${sharedErrorFound(error)}`;
}
