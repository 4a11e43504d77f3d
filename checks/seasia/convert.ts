/**
 * The Singapore rows of the Southeast Asian dataset as a campaign: the same figures, in our tables. What was decided on
 * the way stands in docs/real-input.md. Pure; write.ts writes the folder.
 */
import type { Cells } from '../points/table.ts';

type Rows = Record<string, string>[];

/** Rows of the campaign's tables, cells as typed. */
export interface Tables {
  settings: Rows;
  datums: Rows;
  sites: Rows;
  tide_levels: Rows;
  samples: Rows;
  determinations: Rows;
  points: Rows;
  point_errors: Rows;
}

/**
 * ΔR of the dataset belongs to the 2013 marine curve. Marine20 runs about 150 14C yr older than it in the Holocene, so
 * that ΔR on Marine20 is lower by as much (Heaton et al. 2023, Radiocarbon 65:247–273, doi 10.1017/RDC.2022.66, seen
 * quoted, not in the paper). The 30 yr are ours, for the difference varying with age.
 */
const MARINE20_OVER_2013_YR = 150;
const MARINE20_OVER_2013_SD_YR = 30;

const SEA = new Set(['bivalve', 'gastropod', 'oyster', 'shell', 'coral']);
const LEVELS = ['LAT', 'MLLW', 'MLW', 'MTL', 'MHW', 'MHHW', 'HAT'];

/**
 * Parts of the height error: our name, the dataset's column, and what shares it. The dataset does not say; that a site
 * shares its ground height and its tide model is our reading.
 */
const PARTS: readonly [string, string, 'site' | 'own'][] = [
  ['levelling', 'leveling_uncertainty_m', 'site'],
  ['benchmark', 'benchmark_uncertainty_m', 'site'],
  ['satellite_position', 'gps_uncertainty_m', 'site'],
  ['sampling', 'sampling_uncertainty_m', 'own'],
  ['core_shortening', 'core_shortening_stretching_uncertainty_m', 'own'],
  ['water_depth', 'water_depth_uncertainty_m', 'own'],
  ['tide_model_level', 'rwl_model_uncertainty_m', 'site'],
  ['tide_model_range', 'ir_model_uncertainty_m', 'own'],
];

const of = (row: Cells, column: string) => row[column] ?? '';

/** First word of the evidence: what was dated. */
const materialOf = (row: Cells): string => of(row, 'supporting_evidence').split(' ')[0]!.toLowerCase();

/** "Southeast (SMU/ SMU-BBP)" → "SMU", "Geylang, Singapore" → "Geylang". */
const siteOf = (row: Cells): string => {
  const words = of(row, 'site_or_subregion');
  return (/\((\w+)/.exec(words) ?? /^(\w+)/.exec(words))?.[1] ?? words;
};

export function convert(rows: readonly Cells[]): Tables {
  const tables: Tables = {
    settings: [
      { name: 'name', value: 'Singapore, from Mann et al. 2019' },
      { name: 'datum', value: 'MSL' },
      {
        name: 'curve_sites',
        value: 'all',
        note: 'published as one coast: seven sites within seventy kilometres',
      },
      { name: 'curve_oldest_cal_bp', value: '9500' },
      { name: 'intervals', value: '9000-8000; 8000-7000; 7000-6000' },
      {
        name: 'present_constraint',
        value: 'off',
        note: 'the dataset does not state the epoch of its mean sea level',
      },
    ],
    datums: [{ datum: 'MSL', kind: 'mean_sea_level', note: 'local mean sea level of the dataset' }],
    sites: [],
    tide_levels: [],
    samples: [],
    determinations: [],
    points: [],
    point_errors: [],
  };
  const sites = new Set<string>();
  const timesDated = Map.groupBy(rows, (row) => of(row, 'lab_code'));

  for (const row of rows) {
    const site = siteOf(row);
    if (!sites.has(site)) {
      sites.add(site);
      tables.sites.push({
        site,
        name: of(row, 'site_or_subregion'),
        latitude_deg: of(row, 'latitude_deg'),
        longitude_deg: of(row, 'longitude_deg'),
      });
      for (const level of LEVELS) {
        tables.tide_levels.push({
          site,
          level,
          datum: 'MSL',
          elevation_m: of(row, `${level.toLowerCase()}_m_msl`),
          sigma_m: '0',
          source: 'Mann et al. 2019',
          note: 'errors of the tide model stand in point_errors',
        });
      }
    }

    const sample = of(row, 'sample_id');
    const lab_code = of(row, 'lab_code');
    const sharing = timesDated.get(lab_code)!;
    const doubled = sharing.length > 1;
    const status = doubled
      ? {
          status: 'rejected',
          reason: `laboratory number on ${sharing.length} rows (${sharing.map((r) => of(r, 'sample_id')).join(', ')}) with different ages and materials`,
        }
      : { status: 'accepted' };
    const label = doubled ? `${lab_code} (${sample})` : lab_code;
    const marine = SEA.has(materialOf(row));

    tables.samples.push({
      sample,
      site,
      basis: 'elevation',
      elevation_m: of(row, 'sample_elevation_m_msl'),
      elevation_datum: 'MSL',
      material: materialOf(row),
      note: `${of(row, 'primary_reference')}; ${of(row, 'supporting_evidence')}`,
    });
    tables.determinations.push({
      lab_code: label,
      sample,
      method: 'radiocarbon',
      value: of(row, 'c14_age_bp_corrected'),
      // One row's error shrinks on correction (90 to 25 yr): a slip. The larger is kept.
      error: String(
        Math.max(Number(of(row, 'c14_error_1s_yr_reported')), Number(of(row, 'c14_error_1s_yr_corrected'))),
      ),
      delta13c_permil: of(row, 'delta13C_permil'),
      ...(marine ? marineCurve(row) : { calibration_curve: 'intcal20' }),
      ...status,
    });

    const [one = '', other = ''] = of(row, 'indicative_meaning').split(/ to | /);
    tables.points.push({
      point: sample,
      sample,
      determination: label,
      ...(one === 'above'
        ? { indicator: 'terrestrial limiting (fresh peat, soil, fluvial)', kind: 'terrestrial', lower: other }
        : one === 'below'
          ? { indicator: 'marine limiting (subtidal mud, shell, coral)', kind: 'marine', upper: other }
          : { indicator: indicatorOf(row), kind: 'index', lower: other, upper: one }),
      ...status,
    });

    for (const [component, column, sharedBy] of PARTS) {
      const value_m = of(row, column);
      if (value_m === '') continue;
      tables.point_errors.push({
        point: sample,
        component,
        value_m,
        sigma_level: '2',
        shape: 'normal',
        shared_group: sharedBy === 'site' ? `site ${site}` : '',
      });
    }
  }
  return tables;
}

function marineCurve(row: Cells) {
  const sd = Math.hypot(Number(of(row, 'deltaR_error_14Cyr')), MARINE20_OVER_2013_SD_YR);
  return {
    calibration_curve: 'marine20',
    delta_r: String(Number(of(row, 'deltaR_14Cyr')) - MARINE20_OVER_2013_YR),
    delta_r_error: sd.toFixed(0),
    delta_r_group: `2013 offset ${of(row, 'deltaR_14Cyr')} ± ${of(row, 'deltaR_error_14Cyr')}`,
  };
}

/** The vocabulary's word for the dataset's indicator. */
function indicatorOf(row: Cells): string {
  const indicator = of(row, 'indicator').toLowerCase();
  if (indicator.startsWith('mangrove')) return 'mangrove or salt-marsh, tropical';
  if (indicator.startsWith('oyster')) return 'oyster belt';
  if (indicator.startsWith('intertidal mudflat')) return 'intertidal mudflat';
  return of(row, 'indicator');
}
