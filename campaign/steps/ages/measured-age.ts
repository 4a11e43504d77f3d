/**
 * Luminescence and uranium-series ages from what was measured of their samples: dose and dose rate, or activity ratios, in
 * the table of measurements. Where a date states no age, this is its age; otherwise the stated one is held against it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type DoseRateResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { Calibration, Finding } from '@stillstand/science/dating';
import {
  type DoseRate,
  isFinding,
  luminescenceAge,
  luminescenceYears,
  measured,
  type NoDoseRate,
} from '@stillstand/science/luminescence';
import { DECAY_CONSTANTS, openSystem, uraniumAge, uraniumYears } from '@stillstand/science/uranium';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellMeasuredAge } from '../words/dates.ts';
import { type DatingMeasurements, datingMeasurements, type MeasurementsOf } from './dating-measurements.ts';
import { doseRateResult, type NamedFactors, rateOfContents } from './rate-of-contents.ts';

type Determination = Row<'determinations'>;
type Measurement = Row<'measurements'>;

export type MeasuredAge =
  | {
      kind: 'age';
      /** Years before measurement; 1 sigma, the whole and the part that samples measured together share. */
      age_yr: number;
      error_yr: number;
      systematic_yr: number;
      /** By calendar years; null where the age is only held against a stated one. */
      years: Calibration | null;
      /** What is doubtful; those of detritus matter to an age that is used. */
      doubts: readonly { finding: Finding; ofDetritus: boolean }[];
    }
  | { kind: 'not_dated'; findings: readonly Finding[] };

interface Wanted {
  isUsed: boolean;
  /** Year CE of the measurement; null: not stated. */
  reference_year: number | null;
  /** Carbonate that took its uranium from the sea. */
  isCoral: boolean;
}

const luminescence = step(
  'luminescence age of measurements',
  ({
    rows,
    ofContents,
    wanted,
  }: {
    rows: MeasurementsOf<'luminescence'>;
    /** Null where the dose rate was measured. */
    ofContents: DoseRate | NoDoseRate | null;
    wanted: Wanted;
  }): MeasuredAge => {
    if (ofContents?.kind === 'no_rate') return { kind: 'not_dated', findings: ofContents.findings };
    const dose = inParts(rows.dose!);
    const rate = ofContents?.rate ?? inParts(rows.rate!);
    const wrong = [dose, rate].filter(isFinding);
    if (isFinding(dose) || isFinding(rate)) return { kind: 'not_dated', findings: wrong };
    const made = luminescenceAge(dose, rate);
    if (made.kind !== 'age') return made;
    const years = wanted.isUsed ? luminescenceYears(dose, rate, wanted.reference_year) : null;
    if (years?.kind === 'not_dated') return years;
    const { age_yr, error_yr, systematic_yr } = made;
    const doubts = (ofContents?.doubts ?? []).map((finding) => ({ finding, ofDetritus: false }));
    return { kind: 'age', age_yr, error_yr, systematic_yr, years, doubts };
  },
);

const uranium = step(
  'uranium-series age of measurements',
  ({ rows, wanted }: { rows: MeasurementsOf<'u_series'>; wanted: Wanted }): MeasuredAge => {
    const ratio = ({ value, sigma }: Measurement) => ({ value: value!, sd: sigma ?? 0 });
    const { initial: detritus } = rows;
    const ratios = {
      th230_u238: ratio(rows.th230_u238!),
      u234_u238: ratio(rows.u234_u238!),
      correlation: rows.correlation?.value ?? 0,
      th230_th232: rows.th230_th232?.value ?? null,
    };
    const initial =
      detritus === undefined ? null : { atomic_ppm: detritus.value!, sd_ppm: detritus.sigma ?? 0 };
    const decay = DECAY_CONSTANTS.cheng2013;
    const made = uraniumAge(ratios, decay, initial);
    if (made.kind !== 'age') return made;
    const years = wanted.isUsed ? uraniumYears(ratios, decay, initial, wanted.reference_year) : null;
    if (years?.kind === 'not_dated') return years;
    const open = wanted.isCoral ? openSystem(made) : null;
    return {
      kind: 'age',
      age_yr: made.age_yr,
      error_yr: made.error_yr,
      systematic_yr: made.initial_thorium_yr,
      years,
      doubts: [
        ...made.doubts.map((finding) => ({ finding, ofDetritus: true })),
        ...(open === null ? [] : [{ finding: open, ofDetritus: false }]),
      ],
    };
  },
);

const inParts = ({ property, value, sigma, systematic_sigma }: Measurement) =>
  measured(property, value!, sigma ?? 0, systematic_sigma ?? 0);

/** What dose rates are computed with, besides measurements. */
export interface Doses {
  /** Null: none at hand. */
  named: NamedFactors | null;
  /** Of a sample below the ground, m; null where it is not known. */
  depthOf: (sample: string) => number | null;
}

const NO_FACTORS: OfMeasurements = {
  kind: 'unclear',
  found: 'contents, and no factors of dose rates at hand',
  expected: 'the factors of one published table',
  fix: 'Enter the dose rate itself.',
};

/** What the measurements of a date's sample say of its age. */
export type OfMeasurements =
  | Exclude<DatingMeasurements, { kind: MeasuredMethod }>
  | {
      kind: 'computed';
      age: Known<MeasuredAge>;
      isPartStated: boolean;
      /** Null where none was computed from contents. */
      rate: DoseRateResult | null;
    };
type MeasuredMethod = 'luminescence' | 'u_series';

/** Whether what the row states is its age. */
export const statesAge = ({ value, error, reported_as }: Determination): boolean =>
  value !== null && error !== null && reported_as !== 'measurements';

export function ageOfMeasurements(
  run: Runner,
  row: Determination,
  measurements: readonly Measurement[],
  sample: Pick<Row<'samples'>, 'material'> | undefined,
  doses: Doses,
): OfMeasurements {
  const of = datingMeasurements(row, measurements);
  if (of.kind === 'none' || of.kind === 'unclear') return of;
  const contents = of.kind === 'luminescence' ? of.contents : null;
  if (contents !== null && doses.named === null) return NO_FACTORS;
  const ofContents =
    contents === null || doses.named === null
      ? null
      : rateOfContents(run, row, contents, doses.named, doses.depthOf(row.sample));
  const isUsed = !statesAge(row) && row.age_density === null;
  const used = Object.values<Measurement>(of.rows);
  const traced = used.map((each) => run.row('measurements', each, `${each.property} of ${row.sample}`));
  const isCoral = /coral/i.test(`${row.fraction_dated ?? ''} ${sample?.material ?? ''}`);
  const wanted = run.plain({ isUsed, reference_year: row.reference_year, isCoral });
  const [id, tell] = [
    traceId.measuredAge(row.lab_code),
    (made: MeasuredAge) => tellMeasuredAge(row.lab_code, made, isUsed),
  ];
  const age =
    of.kind === 'luminescence'
      ? run.do(
          luminescence,
          id,
          { rows: run.plain(of.rows), ofContents: ofContents ?? run.plain(null), wanted },
          tell,
          () => (ofContents === null ? traced : [...traced, ofContents]),
        )
      : run.do(uranium, id, { rows: run.plain(of.rows), wanted }, tell, () => traced);
  return {
    kind: 'computed',
    age,
    isPartStated: [...used, ...Object.values(contents ?? {})].some(
      ({ systematic_sigma }) => systematic_sigma !== null,
    ),
    rate:
      ofContents?.value.kind === 'rate' && doses.named !== null
        ? doseRateResult(row, doses.named.label, ofContents.value)
        : null,
  };
}

/** By laboratory code, of every date that is no limit. */
export function agesOfMeasurements(
  run: Runner,
  { rows }: Campaign,
  doses: Doses,
): Map<string, OfMeasurements> {
  const bySample = Map.groupBy(rows.measurements, (row) => row.sample);
  const samples = new Map(rows.samples.map((row) => [row.sample, row]));
  return new Map(
    rows.determinations
      .filter(({ qualifier }) => qualifier === null)
      .map((row) => [
        row.lab_code,
        ageOfMeasurements(run, row, bySample.get(row.sample) ?? [], samples.get(row.sample), doses),
      ]),
  );
}
