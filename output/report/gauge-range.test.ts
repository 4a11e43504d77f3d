/** A report of points under another tidal range and of a curve that a gauge joined says both, and the tables have them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tinyResults } from './fixtures/results.ts';
import { reportHtml, resultTables } from './index.ts';

const plain = tinyResults();
const changed: typeof plain = {
  ...plain,
  points: plain.points.map((point) => ({
    ...point,
    tidal_range: { factor: 1.24, factor_sigma: 0.08, age_sigma: 0.002, lever_m: 1.3 },
  })),
  curves: plain.curves.map((each) => ({
    ...each,
    gauges: [
      {
        row_id: 'g',
        gauge: 'Pier',
        site: null,
        zero_elevation_m: null,
        sd_m: 0.031,
        correlation: 0.4,
        blocks: [
          {
            point: 'Pier 1951–1970',
            from_year_ce: 1951,
            to_year_ce: 1970,
            years: 20,
            year_ce: 1960.5,
            level_m: 1.234,
            sigma_m: 0.0105,
          },
        ],
      },
    ],
  })),
};

test('both are said where they were used, and only there', () => {
  const page = (of: typeof plain): string =>
    reportHtml(of, [], { fontCss: '@font-face{font-family:"none"}' });
  const [with_, without] = [page(changed), page(plain)];
  for (const wanted of [
    /tidal range of the time of a sample is a factor of today/,
    /Gauge Pier: 20 annual means from 1951 to 1970 CE in 1 blocks?, ±0\.021 m \(2σ\)/,
    /informs the rate and not the level/,
    /Annual means of a gauge enter as means of blocks/,
  ]) {
    assert.match(with_, wanted);
    assert.doesNotMatch(without, wanted);
  }
  const tables = resultTables(changed);
  const [heading, row] = tables.get('gauge_blocks.csv')!.split(/\r?\n/);
  assert.equal(
    heading,
    'curve,gauge,site,zero_elevation_m,sd_m,correlation,point,from_year_ce,to_year_ce,years,mean_year_ce,level_m,level_m_2sigma',
  );
  assert.match(row!, /^main,Pier,,,0\.031,0\.40,Pier 1951–1970,1951,1970,20,1960\.5,1\.2340,0\.0210$/);
  assert.match(tables.get('points.csv')!, /tidal_range_factor,tidal_range_factor_2sigma/);
});
