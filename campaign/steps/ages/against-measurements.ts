/** Ages of dates against the measurements of their samples: what does not follow, and what keeps an age from being computed. */
import type { Row } from '@stillstand/campaign/tables';
import type { Complain } from '../complaint.ts';
import { asReported } from '../words/dates.ts';
import { type MeasuredAge, type OfMeasurements, statesAge } from './measured-age.ts';

type Determination = Row<'determinations'>;

/** An age may be off by so much of itself, and of its error, by rounding: 61 of 67 published ages are within 2 % of dose over rate. */
const ROUNDING = { of_age: 0.02, of_error: 0.2 };
/** Years between 1950 and a measurement, where the year the age counts back from is not stated. */
const UNSTATED_YR = 100;
/** Below this part of the error that the measurements alone give, an error leaves something out. */
const LEAST_ERROR = 0.7;

export function complainOfMeasurements(
  row: Determination,
  of: OfMeasurements,
  complain: Complain<Determination>,
): void {
  if (row.status === 'rejected') return;
  const isStated = statesAge(row);
  const untilThen = isStated ? 'The age is used as it is stated.' : 'The date has no age until then.';
  if (of.kind === 'unclear') {
    const code = isStated ? 'age-not-compared' : 'age-not-computed';
    complain(
      row,
      code,
      'value',
      of.found,
      of.expected,
      `${of.fix} ${untilThen}`,
      isStated ? 'note' : 'error',
    );
    return;
  }
  if (of.kind !== 'computed') return;
  const { value: made } = of.age;
  const measuredOf = (found: string): string => `measured of ${row.sample}: ${found}`;
  if (made.kind === 'not_dated') {
    for (const { found, expected, fix } of made.findings)
      complain(
        row,
        isStated ? 'age-not-as-measured' : 'age-not-computed',
        'value',
        measuredOf(found),
        expected,
        `${fix} ${untilThen}`,
        isStated ? 'warning' : 'error',
      );
    return;
  }
  // A stated age may be corrected for detritus already.
  for (const { finding, ofDetritus } of made.doubts)
    if (!(isStated && ofDetritus))
      complain(
        row,
        'measurements-doubtful',
        'value',
        measuredOf(finding.found),
        finding.expected,
        `${finding.fix} The age is used all the same.`,
        'warning',
      );
  if (isStated) compare(row, made, complain);
  else if (row.reference_year === null)
    complain(
      row,
      'measured-age-without-year',
      'reference_year',
      '',
      'the year of the measurement, from which a computed age counts back',
      'Enter it. Until then the age counts back from 1950, and is too old by the years between.',
      'warning',
    );
}

function compare(
  row: Determination,
  { age_yr, error_yr }: Extract<MeasuredAge, { kind: 'age' }>,
  complain: Complain<Determination>,
): void {
  const [value, error] = [row.value!, row.error!];
  const unstated = row.reference_year === null ? UNSTATED_YR : 0;
  const allowed = Math.max(ROUNDING.of_age * age_yr, ROUNDING.of_error * error) + unstated;
  const name = (column: string, expected: string, fix: string): void =>
    complain(row, 'age-not-as-measured', column, asReported(row), expected, fix, 'warning');
  if (Math.abs(value - age_yr) > allowed)
    name(
      'value',
      `about ${Math.round(age_yr)} ± ${Math.round(error_yr)} yr, which the measurements of ${row.sample} give`,
      'Check the age, the measurements and their units; a correction, as for detritus, explains it too. The age is used as it is stated.',
    );
  else if (error < LEAST_ERROR * error_yr)
    name(
      'error',
      `an error of about ${Math.round(error_yr)} yr or more, which those of the measurements give`,
      'Check whether the error is 1 sigma and the whole. It is used as it is stated.',
    );
}
