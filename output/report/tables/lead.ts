/** Profiles of lead-210 and caesium-137: the profile, its slices, and their ages by each model. */
import { type LeadProfileResult, resultsShape } from '@stillstand/campaign/results';
import type { Column } from './column.ts';
import { columnsOf, shownAs, someOf } from './described.ts';
import { itself, table } from './table.ts';

const profiles = resultsShape.fields.lead_profiles;
const { slices } = profiles.of.fields;
const { ages } = slices.of.fields;

type Slice = LeadProfileResult['slices'][number];
interface SliceOfProfile {
  of: LeadProfileResult;
  slice: Slice;
}
interface AgesOfSlice extends SliceOfProfile {
  ages: Slice['ages'][number];
}

const slicesOf = (all: readonly LeadProfileResult[]): SliceOfProfile[] =>
  all.flatMap((of) => of.slices.map((slice) => ({ of, slice })));

/** Which profile a row belongs to: no fields of the entry. */
const whose = <Row extends SliceOfProfile>(): Column<Row>[] =>
  columnsOf(someOf(profiles.of, ['profile', 'hole']), ({ of }: Row) => of).map((column) => ({
    ...column,
    field: null,
  }));

export const LEAD_PROFILES = table({
  file: 'lead_profiles.csv',
  entry: 'lead_profiles[]',
  about: profiles.of.about,
  shape: profiles.of,
  rows: (results) => results.lead_profiles,
  read: itself<LeadProfileResult>,
  plan: { shown: { collected_ce: shownAs('collected_year_ce', { decimals: 2 }) } },
  leftOut: { slices: 'in lead_slices.csv', horizons: 'in results.json and in the report' },
});

export const LEAD_SLICES = table({
  file: 'lead_slices.csv',
  entry: 'lead_profiles[].slices[]',
  about: slices.about,
  shape: slices.of,
  rows: (results) => slicesOf(results.lead_profiles),
  read: ({ slice }: SliceOfProfile) => slice,
  first: whose<SliceOfProfile>(),
  leftOut: { ages: 'in lead_ages.csv' },
});

export const LEAD_AGES = table({
  file: 'lead_ages.csv',
  entry: 'lead_profiles[].slices[].ages[]',
  about: 'ages of the slices of lead-210 profiles, a row for each model',
  shape: ages.of,
  rows: (results) =>
    slicesOf(results.lead_profiles).flatMap(({ of, slice }) =>
      slice.ages.map((each): AgesOfSlice => ({ of, slice, ages: each })),
    ),
  read: (row: AgesOfSlice) => row.ages,
  plan: {
    shown: {
      middle_cal_bp: shownAs('middle_cal_bp', { decimals: 1 }),
      base_cal_bp: shownAs('base_cal_bp', { decimals: 1 }),
    },
  },
  first: [
    ...whose<AgesOfSlice>(),
    ...columnsOf(someOf(slices.of, ['slice', 'top_m', 'bottom_m']), ({ slice }: AgesOfSlice) => slice).map(
      (column) => ({ ...column, field: null }),
    ),
  ],
});
