/** Two sites whose tide levels are computed: of one from constants, of the other from a month of readings. Invented data. */
import { predict } from '@stillstand/science/tide';
import type { CampaignText, Cells } from './campaign-text.ts';

const CONSTANTS = [
  { constituent: 'M2', amplitude_m: 1, phase_deg: 40 },
  { constituent: 'S2', amplitude_m: 0.3, phase_deg: 70 },
];
const HOURS = Float64Array.from({ length: 31 * 12 }, (_, i) => Date.UTC(2023, 0, 1) + i * 7_200_000);
const rows = (table: string, of: readonly Cells[]): Cells[] =>
  of.map((cells, i) => ({ row_id: `${table}${i}`, ...cells }));

export const twoGauges: CampaignText = {
  datums: rows('datum', [
    { datum: 'MSL', kind: 'mean_sea_level' },
    { datum: 'CD', kind: 'local' },
  ]),
  datum_shifts: rows('shift', [{ from: 'CD', to: 'MSL', shift_m: '-1.9', sigma_m: '0.02' }]),
  sites: rows('site', [{ site: 'A' }, { site: 'B' }]),
  gauges: rows('gauge', [
    { gauge: 'Pier', site: 'A', datum: 'CD', zero_elevation_m: '0', sigma_m: '0.02' },
    { gauge: 'Pole', site: 'B', datum: 'MSL', zero_elevation_m: '-2', sigma_m: '0.02' },
  ]),
  constituents: rows('constant', [
    ...CONSTANTS.map(({ constituent, amplitude_m, phase_deg }) => ({
      gauge: 'Pier',
      constituent,
      amplitude_m: String(amplitude_m),
      phase_deg: String(phase_deg),
    })),
    { gauge: 'Pier', constituent: 'Z0', amplitude_m: '1.9', phase_deg: '0' },
  ]),
  gauge_readings: rows(
    'reading',
    [...predict({ mean_m: 2, constants: CONSTANTS }, HOURS)].map((height, i) => ({
      gauge: 'Pole',
      seq: String(i + 1),
      time: new Date(HOURS[i]!).toISOString(),
      height_m: height.toFixed(3),
    })),
  ),
  tide_levels: rows('level', [{ site: 'A', level: 'MTL', datum: 'MSL', elevation_m: '0.02' }]),
  tide_reductions: rows('reduction', [
    { site: 'A', gauge: 'Pier', method: 'constants', from: '2002-01-01' },
    { site: 'B', gauge: 'Pole', method: 'means' },
  ]),
  samples: rows(
    'sample',
    ['A', 'B'].map((site) => ({
      sample: site,
      site,
      depth_basis: 'elevation',
      elevation_m: '-3',
      elevation_datum: 'MSL',
    })),
  ),
  determinations: rows(
    'date',
    ['A', 'B'].map((site) => ({
      lab_code: `L-${site}`,
      sample: site,
      method: 'luminescence',
      value: '5000',
      error: '200',
      reference_year: '2020',
    })),
  ),
  points: rows(
    'point',
    ['A', 'B'].map((site) => ({ point: site, sample: site, kind: 'index', lower: 'MTL', upper: 'MHW' })),
  ),
};
