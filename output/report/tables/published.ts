/** Points of the literature, on the datum of the campaign and in calendar years. */
import { type PublishedPointResult, resultsShape } from '@stillstand/campaign/results';
import { atTwoSigma, members, shownAs } from './described.ts';
import { itself, table } from './table.ts';
import { decimalsWith } from './units.ts';

const { published } = resultsShape.fields;
const decimals = (point: PublishedPointResult): number => decimalsWith(2 * point.rsl_sigma_m, 'm');

export const PUBLISHED_POINTS = table({
  file: 'published_points.csv',
  entry: 'published[]',
  about: published.about,
  shape: published.of,
  rows: (results) => results.published,
  read: itself<PublishedPointResult>,
  plan: {
    shown: {
      latitude_deg: shownAs('latitude_deg_wgs84'),
      longitude_deg: shownAs('longitude_deg_wgs84'),
      rsl_m: shownAs('rsl_m', { decimals }),
      rsl_sigma_m: atTwoSigma('rsl_m_2sigma', decimals),
      age: members(published.of.fields.age, {
        shown: {
          older95_cal_bp: shownAs('age_older_2sigma_cal_bp'),
          younger95_cal_bp: shownAs('age_younger_2sigma_cal_bp'),
        },
      }),
    },
  },
});
