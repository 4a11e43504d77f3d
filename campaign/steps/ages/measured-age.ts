/**
 * Luminescence and uranium-series ages against what was measured of their samples: dose and dose rate, or activity ratios, in
 * the table of measurements. The age stays the laboratory's; one that does not follow from the measurements is named.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { Finding } from '@stillstand/science/dating';
import { luminescenceAge } from '@stillstand/science/luminescence';
import { DECAY_CONSTANTS, uraniumAge } from '@stillstand/science/uranium';
import { type Complain, complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { asReported, tellMeasuredAge } from '../words/dates.ts';

type Determination = Row<'determinations'>;
type Measurement = Row<'measurements'>;
type Method = 'luminescence' | 'u_series';

interface Property {
  name: string;
  units: readonly string[];
}

/** What an age of the method is computed from; ratios are activity ratios. */
const PROPERTIES: Readonly<Record<Method, readonly [Property, Property]>> = {
  luminescence: [
    { name: 'equivalent dose', units: ['Gy'] },
    { name: 'dose rate', units: ['Gy/ka', 'mGy/yr', 'mGy/a'] },
  ],
  u_series: [
    { name: '230Th/238U', units: ['', 'activity ratio'] },
    { name: '234U/238U', units: ['', 'activity ratio'] },
  ],
};

/** An age may be off by so much of itself, and of its error, by rounding: 61 of 67 published ages are within 2 % of dose over rate. */
const ROUNDING = { of_age: 0.02, of_error: 0.2 };
/** Years between 1950 and a measurement, where the year the age counts back from is not stated. */
const UNSTATED_YR = 100;
/** Below this part of the error that the measurements alone give, an error leaves something out. */
const LEAST_ERROR = 0.7;

type MeasuredAge = { age_yr: number; error_yr: number } | { findings: readonly Finding[] };

const measuredAge = step(
  'age of measurements',
  ({ first, second }: { first: Measurement; second: Measurement }): MeasuredAge => {
    const [a, b] = [first, second].map((row) => ({ value: row.value ?? NaN, sd: row.sigma ?? 0 }));
    if (isNamed(first, PROPERTIES.luminescence[0])) {
      const made = luminescenceAge(
        { value: a!.value, random: a!.sd, systematic: 0 },
        { value: b!.value, random: b!.sd, systematic: 0 },
      );
      return made.kind === 'age' ? made : { findings: made.findings };
    }
    const ratios = { th230_u238: a!, u234_u238: b!, correlation: 0, th230_th232: null };
    const made = uraniumAge(ratios, DECAY_CONSTANTS.cheng2013, null);
    return made.kind === 'age' ? made : { findings: made.findings };
  },
);

const isNamed = ({ property }: Measurement, { name }: Property): boolean =>
  property.trim().toLowerCase() === name.toLowerCase();

const isOf = (method: string): method is Method => method in PROPERTIES;

export function agesAsMeasured(run: Runner, campaign: Campaign): Problem[] {
  const { problems, complain } = complaints<Determination>(campaign, 'determinations', (r) => r.lab_code);
  const bySample = Map.groupBy(campaign.rows.measurements, (row) => row.sample);
  for (const row of campaign.rows.determinations) {
    if (!isOf(row.method) || row.status === 'rejected' || row.qualifier !== null) continue;
    const pair = pairOf(row, PROPERTIES[row.method], bySample.get(row.sample) ?? [], complain);
    if (pair === null) continue;
    const [first, second] = pair.map((each) =>
      run.row('measurements', each, `${each.property} of ${row.sample}`),
    );
    const known = run.do(
      measuredAge,
      traceId.measuredAge(row.lab_code),
      { first: first!, second: second! },
      (made) => tellMeasuredAge(row.lab_code, made),
      () => [first!, second!],
    );
    compare(row, known, complain);
  }
  return problems;
}

/** Both measurements of the sample; null where there are none, or not the two that make one age. */
function pairOf(
  row: Determination,
  [first, second]: readonly [Property, Property],
  measurements: readonly Measurement[],
  complain: Complain<Determination>,
): readonly [Measurement, Measurement] | null {
  const of = (property: Property): Measurement[] =>
    measurements.filter((each) => each.value !== null && each.qualifier === null && isNamed(each, property));
  const [a, b] = [of(first), of(second)];
  if (a.length === 0 && b.length === 0) return null;
  const not = (found: string, expected: string, fix: string): null => {
    complain(
      row,
      'age-not-compared',
      'value',
      found,
      expected,
      `${fix} The age is used as it is stated.`,
      'note',
    );
    return null;
  };
  if (a.length !== 1 || b.length !== 1)
    return not(
      `${a.length} × ${first.name}, ${b.length} × ${second.name} of ${row.sample}`,
      'one of each, to compute the age from',
      'Complete the measurements of the sample, or name each after its own sample.',
    );
  for (const [measurement, { name, units }] of [
    [a[0]!, first],
    [b[0]!, second],
  ] as const) {
    const unit = measurement.unit?.trim() ?? '';
    if (!units.includes(unit))
      return not(
        `${name} in ${unit === '' ? 'no unit' : unit}`,
        units.filter((each) => each !== '').join(' or '),
        'Correct the unit of the measurement, or turn its value into that unit.',
      );
  }
  return [a[0]!, b[0]!];
}

function compare(row: Determination, { value: made }: Known<MeasuredAge>, complain: Complain<Determination>) {
  const name = (found: string, expected: string, fix: string, column = 'value'): void =>
    complain(row, 'age-not-as-measured', column, found, expected, fix, 'warning');
  if ('findings' in made) {
    for (const { found, expected, fix } of made.findings)
      name(`measured of ${row.sample}: ${found}`, expected, `${fix} The age is used as it is stated.`);
    return;
  }
  const { age_yr, error_yr } = made;
  const unstated = row.reference_year === null ? UNSTATED_YR : 0;
  const allowed = Math.max(ROUNDING.of_age * age_yr, ROUNDING.of_error * row.error) + unstated;
  const measured = `${Math.round(age_yr)} ± ${Math.round(error_yr)} yr`;
  if (Math.abs(row.value - age_yr) > allowed)
    name(
      asReported(row),
      `about ${measured}, which the measurements of ${row.sample} give`,
      'Check the age, the measurements and their units; a correction, as for detritus, explains it too. The age is used as it is stated.',
    );
  else if (row.error < LEAST_ERROR * error_yr)
    name(
      asReported(row),
      `an error of about ${Math.round(error_yr)} yr or more, which those of the measurements give`,
      'Check whether the error is 1 sigma and the whole. It is used as it is stated.',
      'error',
    );
}
