/**
 * Where a determination has its age from: as it is stated, from a curve of probability it names, or from measurements of its
 * sample. What has no age is named.
 */
import { nearest, type Row } from '@stillstand/campaign/tables';
import { before1950, type Calibration } from '@stillstand/science/dating';
import type { Complain } from '../complaint.ts';
import type { Known } from '../runner/step.ts';
import { asReported } from '../words/dates.ts';
import type { AgeDensities, AgeDensity } from './age-densities.ts';
import { isShared, type WithAge } from './calendar-age.ts';
import { isMeasuredMethod, neededFor } from './dating-measurements.ts';
import { type MeasuredAge, type OfMeasurements, statesAge } from './measured-age.ts';

type Determination = Row<'determinations'>;

export interface GivenAge {
  from: 'stated' | 'measurements' | 'density';
  /** As it is dated: with the age that was computed, or the median of its density. */
  row: WithAge;
  /** Its age by calendar years, where that is neither normal nor even. */
  years: Calibration | null;
  measured: Known<MeasuredAge> | null;
  density: AgeDensity | null;
}

/** Null without an age; why is said by whoever complains of its measurements, and otherwise here. */
export function givenAge(
  row: Determination,
  densities: Pick<AgeDensities, 'of' | 'faulty'>,
  of: OfMeasurements | undefined,
  complain: Complain<Determination>,
): GivenAge | null {
  const isCarbon = row.method === 'radiocarbon';
  if (row.age_density !== null && !isCarbon) return byDensity(row, row.age_density, densities, complain);
  if (row.age_density !== null)
    complain(
      row,
      'age-density-unused',
      'age_density',
      row.age_density,
      'none for radiocarbon: its calibration curve gives the years',
      'Remove it, or correct the method. The date is calibrated from its value.',
      'warning',
    );
  if (of?.kind === 'computed' && !statesAge(row)) return byMeasurements(row, of);
  if (hasAge(row) && row.reported_as !== 'measurements') return stated(row);
  if (of?.kind !== 'unclear' && row.status !== 'rejected' && row.qualifier !== 'not_determined')
    complainOfNone(row, complain);
  return null;
}

const hasAge = (row: Determination): row is WithAge => row.value !== null && row.error !== null;

const stated = (row: WithAge): GivenAge => ({
  from: 'stated',
  row,
  years: null,
  measured: null,
  density: null,
});

function byMeasurements(
  row: Determination,
  { age, isPartStated }: Extract<OfMeasurements, { kind: 'computed' }>,
): GivenAge | null {
  const { value: made } = age;
  if (made.kind !== 'age') return null;
  // A part that nobody asked to share is the date's own.
  const isAsked = isPartStated || row.systematic_group !== null;
  const computed = made.systematic_yr > 0 && isAsked ? Math.min(made.systematic_yr, made.error_yr) : null;
  const dated: WithAge = {
    ...row,
    value: made.age_yr,
    error: made.error_yr,
    error_shape: null,
    systematic_error: row.systematic_error ?? computed,
  };
  // What dates share is one shift in years of them all, of normal laws.
  const years = isShared(dated) ? null : made.years;
  return { from: 'measurements', row: dated, years, measured: age, density: null };
}

function byDensity(
  row: Determination,
  name: string,
  { of, faulty }: Pick<AgeDensities, 'of' | 'faulty'>,
  complain: Complain<Determination>,
): GivenAge | null {
  const density = of.get(name);
  if (density === undefined) {
    const near = nearest(name, of.keys());
    complain(
      row,
      'no-age-density',
      'age_density',
      name,
      'a name in the table of age densities',
      `${faulty.has(name) ? `Correct the rows of ${name} in that table.` : near === null ? 'Enter its rows in that table, or remove the name here.' : `Perhaps ${near} is meant.`} The date has no age until then.`,
      row.status === 'rejected' ? 'note' : 'error',
    );
    return null;
  }
  const { years } = density;
  if (row.value !== null) {
    const value = before1950(row.value, row.reference_year);
    const reach = 3 * (row.error ?? 0);
    const oldest = years.from_cal_bp + years.density.length - 1;
    if (value + reach < years.from_cal_bp || value - reach > oldest)
      complain(
        row,
        'age-not-as-density',
        'value',
        asReported(row),
        `${years.from_cal_bp} to ${oldest} cal BP, as ${name} has it`,
        'Correct one of them. The age density is used.',
        'warning',
      );
  }
  const dated: WithAge = {
    ...row,
    value: years.median_cal_bp,
    error: years.sd_yr,
    error_shape: null,
    reference_year: null,
  };
  return { from: 'density', row: dated, years, measured: null, density };
}

function complainOfNone(row: Determination, complain: Complain<Determination>): void {
  const needed = isMeasuredMethod(row.method) ? neededFor(row.method) : null;
  if (row.reported_as === 'measurements')
    complain(
      row,
      'age-missing',
      'reported_as',
      `no measurements of ${row.sample} that give an age`,
      needed ?? 'a luminescence or uranium-series date',
      'Enter them, or enter the age and say that it is reported as an age. The date has no age until then.',
    );
  else
    complain(
      row,
      'age-missing',
      row.value === null ? 'value' : 'error',
      asReported(row),
      `an age and its 1 sigma${needed === null ? '' : `, or measurements of ${row.sample}: ${needed}`}`,
      'Enter them. The date has no age until then.',
    );
}
