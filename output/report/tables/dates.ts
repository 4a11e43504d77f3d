/** Samples and their dates, and ages against depth. */
import { type AgeInterval, type DateResult, type Results, resultsShape } from '@stillstand/campaign/results';
import { written } from '@stillstand/output/words';
import { along } from './along.ts';
import { CONVERGED_ALONE } from './converged.ts';
import { inWords, members, plusMinus, several, shownAs } from './described.ts';
import { itself, table } from './table.ts';

const { samples, dates, histories } = resultsShape.fields;

export const SAMPLES = table({
  file: 'samples.csv',
  entry: 'samples[]',
  about: samples.of.about,
  shape: samples.of,
  rows: (results) => results.samples,
  read: itself<Results['samples'][number]>,
  plan: {
    shown: { thickness_m: shownAs('thickness_m', { decimals: 3 }), elevation_m: plusMinus() },
  },
  leftOut: { components: 'in points.csv, for the samples that make a claim on the sea' },
});

export const isRadiocarbon = (date: DateResult): boolean => date.method === 'radiocarbon';
export const isMarine = (date: DateResult): boolean => date.delta_r !== 0 || date.delta_r_error !== 0;

export const DATES = table({
  file: 'dates.csv',
  entry: 'dates[]',
  about: dates.of.about,
  shape: dates.of,
  rows: (results) => results.dates,
  read: itself<DateResult>,
  plan: {
    shown: {
      value: several(
        shownAs('c14_age_bp', { value: (age, date) => (isRadiocarbon(date) ? age : null) }),
        shownAs('age_before_1950_yr_other_methods', {
          value: (age, date) => (isRadiocarbon(date) ? null : age - (date.counts_from_ce - 1950)),
        }),
      ),
      f14c: shownAs('f14c', { decimals: 4 }),
      f14c_sigma: shownAs('f14c_1sigma', { decimals: 4 }),
      curve: shownAs('calibration_curve'),
      delta_r: shownAs('delta_r_c14_yr', { value: (offset, date) => (isMarine(date) ? offset : null) }),
      delta_r_error: shownAs('delta_r_c14_yr_1sigma', {
        value: (error, date) => (isMarine(date) ? error : null),
      }),
      delta_r_group: shownAs('delta_r_shared_group'),
      sets_68: inWords('set_68.3_cal_bp_older_to_younger_with_probability', setText),
      sets_95: several(
        inWords('set_95.4_cal_bp_older_to_younger_with_probability', setText),
        inWords('oldest_95.4_cal_bp', (set) => end(set, Math.max, 'older_cal_bp')),
        inWords('youngest_95.4_cal_bp', (set) => end(set, Math.min, 'younger_cal_bp')),
      ),
      truncated: shownAs('share_beyond_curve'),
    },
    after: { material: 'method', age_from: 'method', status: 'truncated', reason: 'status' },
  },
  leftOut: {
    counts_from_ce: 'ages are before 1950 here',
    from_cal_bp: 'of the density',
    density: 'in results.npz: a number for every year',
  },
});

/** "5308 to 5213 (0.312); 5196 to 5050 (0.643)". */
function setText(set: readonly AgeInterval[]): string {
  return set
    .map(
      (part) =>
        `${written(part.older_cal_bp, 0)} to ${written(part.younger_cal_bp, 0)} (${written(part.probability, 3)})`,
    )
    .join('; ');
}

/** An outer end of a set; nothing where it is empty. */
const end = (
  set: readonly AgeInterval[],
  outer: (...ages: number[]) => number,
  side: 'older_cal_bp' | 'younger_cal_bp',
): string => (set.length === 0 ? '' : written(outer(...set.map((part) => part[side])), 0));

const history = along(histories.of, 'depth_m');
const COARSE = 'of a normal law; the median and the 95 % are shown';
const INNER = 'the 95 % are shown';

/** Age and accumulation of a hole, one row for each depth. */
export const AGE_DEPTH = table({
  file: 'age_depth.csv',
  entry: 'histories[]',
  about: `${histories.of.about}, a row for each depth`,
  shape: history.shape,
  rows: ({ histories: all }) =>
    all.flatMap((of) => Array.from(of.depth_m, (_, place) => history.at(of, place))),
  read: itself<ReturnType<typeof history.at>>,
  plan: {
    shown: {
      age_cal_bp: members(history.shape.fields.age_cal_bp, {
        shown: {
          upper95: shownAs('age_cal_bp_older_95'),
          lower95: shownAs('age_cal_bp_younger_95'),
        },
        after: { lower95: 'upper95' },
        leftOut: { mean: COARSE, sd: COARSE, lower68: INNER, upper68: INNER },
        decimals: 0,
      }),
      accumulation_mm_yr: members(history.shape.fields.accumulation_mm_yr, {
        leftOut: { mean: COARSE, sd: COARSE, lower68: INNER, upper68: INNER },
        decimals: 2,
      }),
      diagnostics: members(history.shape.fields.diagnostics, {
        shown: { converged: shownAs('converged') },
        leftOut: CONVERGED_ALONE,
      }),
    },
  },
  leftOut: {
    clocks: 'in results.json and in the report',
    hiatuses: 'in results.json and in the report',
    beds: 'in results.json and in the report',
    shared: 'in results.json and in the report',
    modes: 'in results.json and in the figure',
    law: 'in results.json',
    profiles: 'in results.json and in the report',
    samples: 'in results.json',
    levels: 'in results.json',
    draws: 'in results.npz',
  },
});
