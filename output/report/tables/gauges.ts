/** Annual means of gauges as they joined the curve: a row for each block of years. */
import { type GaugeResult, gaugesOf, resultsShape } from '@stillstand/campaign/results';
import { atTwoSigma, columnsOf, shownAs, someOf } from './described.ts';
import { ofEachCurve } from './table.ts';

const { gauges } = resultsShape.fields.curves.of.fields;
const { blocks } = gauges.of.fields;

interface BlockOfGauge {
  gauge: GaugeResult;
  block: GaugeResult['blocks'][number];
}

export const GAUGE_BLOCKS = ofEachCurve({
  file: 'gauge_blocks.csv',
  entry: 'curves[].gauges[].blocks[]',
  about: `${gauges.about}: a row for each`,
  shape: blocks.of,
  rows: (results) =>
    gaugesOf(results).flatMap((gauge) => gauge.blocks.map((block): BlockOfGauge => ({ gauge, block }))),
  read: ({ block }: BlockOfGauge) => block,
  plan: {
    shown: {
      from_year_ce: shownAs('from_year_ce'),
      to_year_ce: shownAs('to_year_ce'),
      years: shownAs('years', { decimals: 0 }),
      year_ce: shownAs('mean_year_ce', { decimals: 1 }),
      level_m: shownAs('level_m', { decimals: 4 }),
      sigma_m: atTwoSigma('level_m_2sigma', 4),
    },
  },
  first: columnsOf(
    someOf(gauges.of, ['gauge', 'site', 'zero_elevation_m', 'sd_m', 'correlation']),
    ({ gauge }: BlockOfGauge) => gauge,
    {
      shown: {
        zero_elevation_m: shownAs('zero_elevation_m', { decimals: 3 }),
        sd_m: shownAs('sd_m', { decimals: 3 }),
        correlation: shownAs('correlation', { decimals: 2 }),
      },
    },
  ).map((column) => ({ ...column, field: null })),
});
