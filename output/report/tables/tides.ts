/** Tide levels of the sites as their points use them, with what a gauge gives for the same. */
import { resultsShape, type SiteTideResult } from '@stillstand/campaign/results';
import { textColumn } from './column.ts';
import { atTwoSigma, shownAs } from './described.ts';
import { table } from './table.ts';

const { tides } = resultsShape.fields;
const { levels, site } = tides.of.fields;

interface LevelOfSite {
  site: string;
  level: SiteTideResult['levels'][number];
}

export const TIDE_LEVELS = table({
  file: 'tide_levels.csv',
  entry: 'tides[].levels[]',
  about: `${tides.about}: a row for each level`,
  shape: levels.of,
  rows: (results) =>
    results.tides.flatMap(({ site, levels }) => levels.map((level): LevelOfSite => ({ site, level }))),
  read: ({ level }: LevelOfSite) => level,
  plan: {
    shown: {
      elevation_m: shownAs('elevation_m', { decimals: 3 }),
      sigma_m: atTwoSigma('elevation_m_2sigma', 3),
      computed_m: shownAs('computed_m', { decimals: 3 }),
      computed_sigma_m: atTwoSigma('computed_m_2sigma', 3),
    },
  },
  first: [textColumn({ heading: 'site', about: site.about }, (row: LevelOfSite) => row.site)],
});
