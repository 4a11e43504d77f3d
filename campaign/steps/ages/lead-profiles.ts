/** Profiles of lead-210 and caesium-137: from the measurements of a hole to ages of its slices. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type LeadProfileResult, type MeasurementResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import {
  type CaesiumHorizon,
  decimalYear,
  type LeadFault,
  type LeadProfile,
  leadAges,
  leadDefaults,
} from '@stillstand/science/lead';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellLeadProfile } from '../words/lead.ts';
import { type Ages, type Horizon, resultOf } from './lead-result.ts';
import { leadSlices } from './lead-slices.ts';

type ProfileRow = Row<'lead_profiles'>;

/** The profile of a hole as it was measured, and what was made of it. */
export interface ProfileOfHole {
  label: string;
  profile: LeadProfile;
  ages: Known<Ages>;
}

/** Its own name splits the stream, so that no profile depends on the others. */
const agesOfProfile = step(
  'lead-210 profile',
  ({ profile, name, seed }: { profile: LeadProfile; name: string; seed: number }): Ages => {
    const ages = leadAges(profile, leadDefaults, randomStream(seed).split('lead-210').split(name));
    return { ...ages, peak: withoutDraws(ages.peak), onset: withoutDraws(ages.onset) };
  },
);

function withoutDraws(horizon: CaesiumHorizon | null): Horizon | null {
  if (horizon === null) return null;
  const { depth_draws: _, ...rest } = horizon;
  return rest;
}

export function leadProfiles(
  run: Runner,
  campaign: Campaign,
  measurements: readonly MeasurementResult[],
  seed: number,
): { made: LeadProfileResult[]; of: ReadonlyMap<string, ProfileOfHole>; problems: Problem[] } {
  const ofProfiles = complaints<ProfileRow>(campaign, 'lead_profiles', ({ profile }) => profile);
  const ofValues = complaints<Row<'measurements'>>(
    campaign,
    'measurements',
    ({ property, sample, hole }) => `${property} of ${sample ?? hole ?? 'no sample'}`,
  );
  const made: LeadProfileResult[] = [];
  const of = new Map<string, ProfileOfHole>();
  const taken = new Set<string>();
  for (const row of campaign.rows.lead_profiles) {
    if (taken.has(row.hole)) {
      ofProfiles.complain(
        row,
        'lead-second-profile',
        'hole',
        row.hole,
        'a hole without a profile yet: all lead-210 of a hole is one profile',
        'Delete this row, or name the other hole. It is not computed until then.',
      );
      continue;
    }
    taken.add(row.hole);
    const supported =
      row.supported_bq_kg === null
        ? null
        : { bq_kg: row.supported_bq_kg, sigma_bq_kg: row.supported_sigma_bq_kg ?? 0 };
    if (supported !== null && row.supported_sigma_bq_kg === null)
      ofProfiles.complain(
        row,
        'lead-no-sigma',
        'supported_sigma_bq_kg',
        '',
        '1 sigma of the supported lead-210',
        'Enter it. The supported lead-210 is taken as exact until then, and the errors of the ages are too small.',
        'warning',
      );
    const slices = leadSlices(campaign, row.hole, measurements, supported, ofValues.complain);
    if (slices.length === 0) {
      ofProfiles.complain(
        row,
        'lead-no-slices',
        'hole',
        row.hole,
        'measurements of lead-210 with a place in the hole: lead-210, radium-226, caesium-137, dry density',
        'Enter them in the table of measurements, property by property. The profile is not computed until then.',
      );
      continue;
    }
    const profile: LeadProfile = {
      slices: slices.map(({ slice }) => slice),
      supported,
      collected_ce: row.collected === null ? null : decimalYear(row.collected),
    };
    const known = run.do(
      agesOfProfile,
      traceId.leadProfile(row.profile),
      { profile: run.plain(profile), name: run.plain(row.profile), seed: run.plain(seed) },
      (ages) => tellLeadProfile(row.profile, ages),
      () => [
        run.row('lead_profiles', row, `profile ${row.profile}`),
        ...slices.flatMap(({ rows }) =>
          Object.values(rows).map((of) => run.row('measurements', of, `${of.property} of ${row.hole}`)),
        ),
      ],
    );
    for (const fault of known.value.faults) {
      const { found, expected, fix, severity } = fault;
      const rows = slices.find(({ slice }) => slice.id === fault.slice)?.rows ?? {};
      const about = fault.code === 'density' ? rows.density : (rows.total ?? Object.values(rows)[0]);
      const code = `lead-${fault.code.replaceAll('_', '-')}`;
      if (about === undefined)
        ofProfiles.complain(
          row,
          code,
          COLUMN_OF_PROFILE[fault.code] ?? 'profile',
          found,
          expected,
          fix,
          severity,
        );
      else ofValues.complain(about, code, COLUMN[fault.code] ?? 'value', found, expected, fix, severity);
    }
    made.push(resultOf(row, profile.collected_ce, slices, known.value));
    of.set(row.hole, { label: row.profile, profile, ages: known });
  }
  return { made, of, problems: [...ofProfiles.problems, ...ofValues.problems] };
}

const COLUMN_OF_PROFILE: Partial<Record<LeadFault['code'], string>> = {
  supported: 'supported_bq_kg',
  collected: 'collected',
};
const COLUMN: Partial<Record<LeadFault['code'], string>> = { no_thickness: 'top', overlap: 'top' };
