/** The dose rate of a sample from the contents of its sediment, as a step of its own: with the factors it was made with. */
import { type DoseRateResult, traceId } from '@stillstand/campaign/results';
import type { DoseFactorLabel } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import type { Finding } from '@stillstand/science/dating';
import {
  type DoseFactors,
  type DoseRate,
  doseRate,
  errorOf,
  type NoDoseRate,
} from '@stillstand/science/luminescence';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { figuresInWords, tellDoseRate } from '../words/dates.ts';
import { type Contents, hasActivities, namedFinding, sedimentOf } from './sediment-measurements.ts';

/** Factors by their label; the caller has loaded them. */
export interface NamedFactors {
  label: DoseFactorLabel;
  factors: DoseFactors;
}

const ofContents = step(
  'dose rate of contents',
  ({
    contents,
    factors,
    depth_m,
  }: {
    contents: Contents;
    factors: DoseFactors;
    depth_m: number | null;
  }): DoseRate | NoDoseRate => {
    const sediment = sedimentOf(contents, factors, depth_m);
    if ('findings' in sediment) return { kind: 'no_rate', findings: sediment.findings };
    const made = doseRate(sediment, factors);
    const named = (findings: readonly Finding[]): Finding[] => findings.map(namedFinding);
    if (made.kind === 'no_rate') return { ...made, findings: named(made.findings) };
    const { source, from_memory } = factors.specific_activity;
    const used = hasActivities(contents)
      ? [...made.used, { name: 'specific activities', source, from_memory }]
      : made.used;
    return { ...made, used, doubts: named(made.doubts) };
  },
);

export function rateOfContents(
  run: Runner,
  { lab_code, sample }: Pick<Row<'determinations'>, 'lab_code' | 'sample'>,
  contents: Contents,
  { label, factors }: NamedFactors,
  depth_m: number | null,
): Known<DoseRate | NoDoseRate> {
  const rows = Object.values(contents).map((row) =>
    run.row('measurements', row, `${row.property} of ${sample}`),
  );
  const given = run.given(
    traceId.published(`dose factors ${label}`),
    `Dose factors ${label}`,
    figuresInWords([
      { name: 'dose factors', ...factors.conversion },
      { name: 'water factors', ...factors.water },
      { name: 'beta attenuation', ...factors.beta_attenuation },
    ]),
    factors,
  );
  return run.do(
    ofContents,
    traceId.doseRate(lab_code),
    { contents: run.plain(contents), factors: given, depth_m: run.plain(depth_m) },
    (made) => tellDoseRate(lab_code, label, made),
    () => [...rows, given],
  );
}

export function doseRateResult(
  { row_id, lab_code, sample }: Pick<Row<'determinations'>, 'row_id' | 'lab_code' | 'sample'>,
  factors: DoseFactorLabel,
  { rate, parts_gy_ka: parts, errors, used }: DoseRate,
): DoseRateResult {
  return {
    row_id,
    lab_code,
    sample,
    rate_gy_ka: rate.value,
    rate_sigma_gy_ka: errorOf(rate),
    shared_sigma_gy_ka: rate.systematic,
    alpha_gy_ka: parts.alpha,
    beta_gy_ka: parts.beta,
    gamma_gy_ka: parts.gamma,
    cosmic_gy_ka: parts.cosmic,
    internal_gy_ka: parts.internal,
    factors,
    errors: errors.map(({ of, random, systematic }) => ({
      of,
      sigma_gy_ka: errorOf({ value: 0, random, systematic }),
      shared_sigma_gy_ka: systematic,
    })),
    figures: used.map(({ name, source, from_memory }) => ({ name, source, from_memory })),
  };
}
