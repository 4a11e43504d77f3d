/** Two holes of the demo, with what the demo has none of: a cut core, every basis of a sample, a pooled pair, a mixed date,
 * a date of the bomb years, a bounding age, shells that give ΔR, rings in sequence, an event, a layer between two dates, a dose and its
 * rate, dates by such measurements alone, an age density, a profile of lead-210. Invented data, from demo/. */
import { type CampaignText, type Cells, demoText, onlyHoles } from './campaign-text.ts';

const demo = onlyHoles(demoText, new Set(['T3', 'M3']));
const rows = (table: string): readonly Cells[] => demo[table] ?? [];
const ids = (table: string, added: readonly Cells[]): Cells[] =>
  added.map((cells, i) => ({ row_id: `added ${table} ${i}`, ...cells }));
const and = (table: string, ...added: Cells[]) => ({ [table]: [...rows(table), ...ids(table, added)] });

export const everyKind: CampaignText = {
  ...demo,
  pushes: rows('pushes').map((cells) => (cells['push'] === 'C1' ? { ...cells, recovered: '' } : cells)),
  ...and(
    'sections',
    { hole: 'M3', push: 'C1', order: '1', seq: '50', length: '30 cm' },
    { hole: 'M3', push: 'C1', order: '2', seq: '51', length: '18 cm' },
  ),
  ...and(
    'samples',
    {
      sample: 'cut',
      hole: 'M3',
      basis: 'push',
      run: 'C2',
      top: '0.10 m',
      bottom: '0.14 m',
      material: 'wood',
    },
    { sample: 'deep', hole: 'T3', basis: 'entered', top: '2.00 m', bottom: '2.04 m' },
    { sample: 'gap', hole: 'T3', basis: 'entered', top: '3.00 m', bottom: '3.04 m' },
    { sample: 'shelf', site: 'TS', basis: 'elevation', elevation_m: '0.4', elevation_datum: 'TLD' },
    { sample: 'sand', site: 'TS', basis: 'elevation', elevation_m: '0.2', elevation_datum: 'TLD' },
    {
      sample: 'coral',
      site: 'TS',
      basis: 'elevation',
      elevation_m: '0.1',
      elevation_datum: 'TLD',
      material: 'coral',
    },
  ),
  ...and(
    'determinations',
    ...['a', 'b'].map((end, i) => ({
      lab_code: `pool-${end}`,
      sample: 'cut',
      method: 'radiocarbon',
      value: String(2950 + 30 * i),
      error: '40',
      calibration_curve: 'shcal20',
      group: 'twins',
    })),
    {
      lab_code: 'mixed',
      sample: 'deep',
      method: 'radiocarbon',
      value: '6100',
      error: '40',
      calibration_curve: 'shcal20',
      marine_fraction: '0.3',
      delta_r: '20',
      delta_r_error: '30',
    },
    {
      lab_code: 'modern',
      sample: 'shelf',
      method: 'radiocarbon',
      value: '1.1234',
      error: '0.003',
      reported_as: 'f14c',
      calibration_curve: 'bomb21_sh1_2',
    },
    {
      lab_code: 'least',
      sample: 'shelf',
      method: 'luminescence',
      value: '900',
      error: '60',
      age_role: 'minimum',
    },
    {
      lab_code: 'grains',
      sample: 'sand',
      method: 'luminescence',
      value: '',
      error: '',
      reference_year: '2020',
    },
    { lab_code: 'reef', sample: 'coral', method: 'u_series', value: '', error: '', reference_year: '2020' },
    { lab_code: 'ash', sample: 'coral', method: 'marker', age_density: 'ash' },
    ...(
      [
        ['ring-a', 2600, { calibration_curve: 'shcal20' }],
        ['ring-b', 2550, { calibration_curve: 'shcal20' }],
        ['event-a', 3400, { calibration_curve: 'shcal20', event_group: 'flood' }],
        ['event-b', 3430, { calibration_curve: 'shcal20', event_group: 'flood' }],
        ['shell-a', 600, { calibration_curve: 'marine20', delta_r_group: 'museum', known_age_ce: '1900' }],
        ['shell-b', 3850, { calibration_curve: 'marine20', delta_r_group: 'museum', paired_with: 'event-a' }],
      ] as const
    ).map(([lab_code, value, cells]) => ({
      lab_code,
      sample: 'shelf',
      method: 'radiocarbon',
      value: String(value),
      error: '25',
      ...cells,
    })),
  ),
  ...and(
    'sequences',
    { sequence: 'log', determination: 'ring-a', offset_yr: '0' },
    { sequence: 'log', determination: 'ring-b', offset_yr: '50', block_yr: '5' },
  ),
  ...and(
    'age_densities',
    { density: 'ash', age_cal_bp: '2900', weight: '0' },
    { density: 'ash', age_cal_bp: '2950', weight: '2' },
    { density: 'ash', age_cal_bp: '3100', weight: '0' },
  ),
  ...and('lead_profiles', { profile: 'lead', hole: 'M3', supported_bq_kg: '20', supported_sigma_bq_kg: '1' }),
  ...and(
    'measurements',
    ...[120, 80, 50, 30, 21].flatMap((value, i) => {
      const at = { hole: 'M3', depth_basis: 'in_situ', top: `${2 * i} cm`, bottom: `${2 * i + 2} cm` };
      return [
        { ...at, property: 'lead210_total', value: `${value}`, sigma: '2', unit: 'Bq/kg' },
        { ...at, property: 'dry density', value: '0.5', unit: 'g/cm3' },
      ];
    }),
    ...Object.entries({ sand: '20', silt: '50', clay: '30' }).map(([property, value]) => ({
      sample: 'deep',
      property,
      value,
      unit: '%',
    })),
    ...Object.entries({ pan: '10', 'pan + wet': '24', 'pan + dry': '18', 'pan + burnt': '16' }).map(
      ([property, value]) => ({ sample: 'deep', property, value, unit: 'g' }),
    ),
    { sample: 'shelf', property: 'equivalent dose', value: '2', sigma: '0.12', unit: 'Gy' },
    { sample: 'shelf', property: 'dose rate', value: '2.2', sigma: '0.1', unit: 'Gy/ka' },
    { sample: 'sand', property: 'equivalent dose', value: '4', sigma: '0.2', unit: 'Gy' },
    {
      sample: 'sand',
      property: 'dose rate',
      value: '2',
      sigma: '0.1',
      systematic_sigma: '0.08',
      unit: 'Gy/ka',
    },
    { sample: 'coral', property: '230Th/238U', value: '0.0316', sigma: '0.0004' },
    { sample: 'coral', property: '234U/238U', value: '1.146', sigma: '0.001' },
    { sample: 'coral', property: '230Th/232Th', value: '40' },
    { sample: 'coral', property: 'initial 230Th/232Th', value: '4.4', sigma: '2.2', unit: 'ppm' },
  ),
  ...and(
    'points',
    {
      point: 'cut',
      sample: 'cut',
      age_from: 'pooled',
      kind: 'index',
      lower: 'MTL',
      upper: 'MHW',
      position: 'intercalated',
    },
    { point: 'deep', sample: 'deep', kind: 'index', lower: 'MTL', upper: 'MHW' },
    { point: 'gap', sample: 'gap', age_from: 'between', kind: 'terrestrial', lower: 'MTL' },
    { point: 'grains', sample: 'sand', kind: 'index', lower: 'MTL', upper: 'MHW' },
    { point: 'ash', sample: 'coral', determination: 'ash', kind: 'index', lower: 'MTL', upper: 'MHW' },
  ),
  ...and('point_errors', { point: 'cut', component: 'compaction', value_m: '0.1', shape: 'one_sided' }),
};
