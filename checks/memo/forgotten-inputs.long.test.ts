/**
 * The old fault, put back: with any one declared input of any one step left out of the memo's keys, some edit gives a
 * warm computation that is not the cold one. So every input is declared because a result depends on it, and a memo that
 * forgets one is found out. Invented data, from demo/, with what the demo does not have added here.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { isDeepStrictEqual } from 'node:util';
import type { Memo, Published } from '@stillstand/campaign/steps';
import { type CampaignText, type Cells, computed, edited, published, told } from './campaign-text.ts';
import { everyKind } from './every-kind.ts';
import { twoGauges } from './two-gauges.ts';
import { withContents } from './with-contents.ts';

const base = withContents(everyKind, 'M3');

/** The rows of a table in which a column says so, with other cells. */
const where = (text: CampaignText, table: string, column: string, is: string, cells: Cells): CampaignText => {
  const index = (text[table] ?? []).findIndex((row) => row[column] === is);
  assert.notEqual(index, -1, `${table}.${column} ${is}`);
  return edited(text, table, index, cells);
};
const setting = (name: string, value: string): CampaignText => ({
  ...base,
  settings: [
    ...(base['settings'] ?? []).filter((cells) => cells['name'] !== name),
    { row_id: `of ${name}`, name, value },
  ],
});
/** A hole by another name, wherever it is named. */
const renamed = (text: CampaignText, from: string, to: string): CampaignText =>
  Object.fromEntries(
    Object.entries(text).map(([table, of]) => [
      table,
      of.map((cells) => (cells['hole'] === from ? { ...cells, hole: to } : cells)),
    ]),
  );

const shifted = (name: 'shcal20' | 'marine20'): Published => {
  const curve = published.curves[name]!;
  return {
    ...published,
    curves: { ...published.curves, [name]: { ...curve, c14_age: curve.c14_age.map((age) => age + 40) } },
  };
};

const one = (table: string, index: number, cells: Cells): CampaignText => edited(base, table, index, cells);
const holeRow = (hole: string, cells: Cells) => where(base, 'holes', 'hole', hole, cells);

const EDITS: readonly (readonly [string, CampaignText, Published?])[] = [
  ['a sight', one('levelling', 2, { foresight_m: '1.111' })],
  ['a benchmark', one('benchmarks', 0, { elevation_m: '5.4' })],
  ['a joint', where(base, 'string_items', 'hole', 'T3', { length: '3.11 m' })],
  ['a sounding', where(base, 'soundings', 'purpose', 'after_run', { to_sediment: '9.11 m' })],
  ['the margin', setting('clearance_margin_m', '0.6')],
  ['the margin of proposals', setting('correlation_margin', '0.5')],
  ['the sigma of a sounding', setting('sounding_sigma_m', '0.05')],
  ['the seed', setting('seed', '99')],
  ['the draws of depth', setting('depth_draws', '150')],
  ['the name of a hole', renamed(base, 'T3', 'T9')],
  ['a push', where(base, 'pushes', 'push', 'C2', { recovered: '41 cm' })],
  ['a section', where(base, 'sections', 'order', '1', { length: '25 cm' })],
  ['a corer', holeRow('M3', { method: 'tube' })],
  ['a unit', where(base, 'units', 'hole', 'T3', { bottom: '0.50 m' })],
  ['the run of a sample', where(base, 'samples', 'hole', 'T3', { top: '0.300 m', bottom: '0.330 m' })],
  ['the top of a sample', where(base, 'samples', 'sample', 'deep', { top: '1.90 m' })],
  ['the base of a sample', where(base, 'samples', 'sample', 'deep', { bottom: '2.20 m' })],
  ['one sample less', { ...base, samples: base['samples']!.filter(({ sample }) => sample !== 'deep') }],
  ['the material of a sample', where(base, 'samples', 'sample', 'cut', { material: 'marine shell' })],
  ['a date', where(base, 'determinations', 'lab_code', 'pool-a', { value: '2930' })],
  ['lead-210', where(base, 'measurements', 'value', '120', { value: '150' })],
  ['a size class', where(base, 'measurements', 'property', 'silt', { value: '51' })],
  ['the scale of grain size', setting('grain_size_scale', 'iso_14688')],
  ['the weight of a pan', where(base, 'measurements', 'property', 'pan + dry', { value: '19' })],
  ['the name of a profile', where(base, 'lead_profiles', 'profile', 'lead', { profile: 'of lead' })],
  [
    'the name of a pool',
    {
      ...base,
      determinations: base['determinations']!.map((d) =>
        d['group'] === 'twins' ? { ...d, group: 'pair' } : d,
      ),
    },
  ],
  ['a date above a layer', where(base, 'determinations', 'lab_code', 'mixed', { value: '6050' })],
  ['a date below it', where(base, 'determinations', 'sample', 'T3-02', { value: '6350' })],
  ['a ring', where(base, 'determinations', 'lab_code', 'ring-b', { value: '2530' })],
  ['a count of rings', where(base, 'sequences', 'determination', 'ring-b', { offset_yr: '40' })],
  ['a date of an event', where(base, 'determinations', 'lab_code', 'event-b', { value: '3460' })],
  ['a shell of known age', where(base, 'determinations', 'lab_code', 'shell-a', { value: '620' })],
  ['the twig of a pair', where(base, 'determinations', 'lab_code', 'event-a', { value: '3380' })],
  ['the air’s figures', base, shifted('shcal20')],
  ['the sea’s figures', base, shifted('marine20')],
  ['the oldest age', setting('oldest_age_cal_bp', '15000')],
  ['a dose', where(base, 'measurements', 'property', 'equivalent dose', { value: '2.1' })],
  ['a dose rate', where(base, 'measurements', 'property', 'dose rate', { value: '2.1' })],
  ['a content', where(base, 'measurements', 'property', 'uranium', { value: '0.7' })],
  ['the factors of dose rates', setting('dose_factors', 'adamiec1998')],
  [
    'a sand deeper than gamma rays reach',
    where(base, 'samples', 'sample', 'shallow sand', { top: '1.00 m', bottom: '1.02 m' }),
  ],
  ['a ratio', where(base, 'measurements', 'property', '230Th/238U', { value: '0.0318' })],
  ['the year of a dose', where(base, 'determinations', 'lab_code', 'grains', { reference_year: '2010' })],
  ['the year of a ratio', where(base, 'determinations', 'lab_code', 'reef', { reference_year: '2010' })],
  ['a weight', where(base, 'age_densities', 'age_cal_bp', '2950', { weight: '1' })],
  ['a tide level', where(base, 'tide_levels', 'level', 'MHW', { elevation_m: '1.1' })],
  ['a meaning', where(base, 'points', 'point', 'deep', { lower: 'MHW', upper: 'HAT' })],
  ['a declared error', where(base, 'point_errors', 'point', 'cut', { value_m: '0.3' })],
  [
    'the reference of a hole',
    where(base, 'levelling', 'point', 'T3 peg', { intermediate_m: '0.5', foresight_m: '' }),
  ],
  ['a lean', holeRow('T3', { inclination_deg: '4' })],
  ['the lean of holes', setting('inclination_percent', '10')],
  ['a rejected point', where(base, 'points', 'point', 'deep', { status: 'rejected' })],
  ['the intervals', setting('intervals', '6000-5000')],
  ['a position', where(base, 'points', 'point', 'deep', { position: 'intercalated' })],
];

/** Steps that take seconds, each with the edits that concern it. */
const LONG = new Set(['curve', 'age against depth', 'ages against depth together']);

function faults(
  start: CampaignText,
  edits: readonly (readonly [string, CampaignText, Published?])[],
  withCurve: boolean,
  isOurs: (step: string) => boolean,
): string[] {
  const declared = new Set<string>();
  computed(start, {
    withCurve,
    forgets: (step, input) => {
      if (isOurs(step)) declared.add(`${step} / ${input}`);
      return false;
    },
  });
  const cold = edits.map(([, text, figures]) => told(computed(text, { withCurve }, figures)));
  return [...declared].filter((pair) => {
    const memo: Memo = new Map();
    const forgets = (step: string, input: string): boolean => `${step} / ${input}` === pair;
    computed(start, { withCurve, memo, forgets });
    return !edits.some(
      ([, text, figures], i) =>
        !isDeepStrictEqual(told(computed(text, { withCurve, memo, forgets }, figures)), cold[i]),
    );
  });
}

test('a memo that forgets any one input of any one step is found out', () => {
  assert.deepEqual(
    faults(base, EDITS, false, (step) => !LONG.has(step)),
    [],
    'inputs whose loss no edit shows',
  );
});

test('so is one that forgets an input of the curve', () => {
  const edits = EDITS.filter(([name]) => ['a tide level', 'a position', 'the intervals'].includes(name));
  assert.deepEqual(
    faults(base, edits, true, (step) => step === 'curve'),
    [],
  );
});

test('so is one that forgets an input of what lies beside the curve', () => {
  const quick = ['chains', 'draws'].map((name, i) => ({ row_id: name, name, value: i === 0 ? '2' : '50' }));
  const start: CampaignText = {
    ...base,
    settings: [...base['settings']!.filter(({ name }) => name !== 'chains' && name !== 'draws'), ...quick],
    other_curves: ['7000', '3000'].map((age, i) => ({
      row_id: `other ${age}`,
      curve: 'Elsewhere',
      age_cal_bp: age,
      level_m: i === 0 ? '-4' : '0.5',
      level_sigma_m: '0.3',
    })),
  };
  assert.deepEqual(
    faults(
      start,
      [
        ['a tide level', where(start, 'tide_levels', 'level', 'MHW', { elevation_m: '1.1' })],
        ['another curve', edited(start, 'other_curves', 0, { level_m: '-5' })],
      ],
      true,
      (step) => step === 'less another curve',
    ),
    [],
  );
});

test('so is one that forgets an input of tide levels that are computed', () => {
  const edits: [string, CampaignText][] = [
    ['a constant', edited(twoGauges, 'constituents', 0, { amplitude_m: '1.1' })],
    ['the first year', edited(twoGauges, 'tide_reductions', 0, { from: '1990-01-01' })],
    ['a gauge reading', edited(twoGauges, 'gauge_readings', 40, { height_m: '4.2' })],
    ['a zero', edited(twoGauges, 'gauges', 1, { zero_elevation_m: '-2.4' })],
  ];
  assert.deepEqual(
    faults(twoGauges, edits, false, (step) => step.startsWith('tide levels of')),
    [],
  );
});

test('so is one that forgets an input of ages against depth', () => {
  /** An exposure of steady 1 mm/yr, dated at four depths, with an erosional contact and an undated sample. */
  const sample = (label: string, depth: number): Cells => ({
    sample: label,
    hole: 'A',
    basis: 'in_situ',
    top: `${depth} m`,
    bottom: `${depth + 0.01} m`,
  });
  const depths = [1, 2, 3, 4];
  const exposure: CampaignText = {
    settings: [
      { row_id: 's1', name: 'age_depth', value: 'A' },
      { row_id: 's2', name: 'depth_draws', value: '100' },
    ],
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [{ hole: 'A', method: 'tube', reference_elevation_m: '2', reference_datum: 'MSL' }],
    pushes: [{ hole: 'A', push: 'P', seq: '1', from: '0 m', to: '4.5 m', recovered: '4.5 m' }],
    units: [
      {
        hole: 'A',
        unit: '1',
        basis: 'in_situ',
        top: '0 m',
        bottom: '2.3 m',
        sediment: 'mud',
        contact_below: 'erosional',
      },
      { hole: 'A', unit: '2', basis: 'in_situ', top: '2.3 m', bottom: '3.4 m', sediment: 'spoil' },
    ],
    samples: [...depths.map((d) => sample(`A${d}`, d)), sample('between', 2.6)],
    determinations: depths.map((d) => ({
      lab_code: `L${d}`,
      sample: `A${d}`,
      method: 'luminescence',
      value: String(1000 * d),
      error: '60',
    })),
  };
  const withSetting = (name: string, value: string): CampaignText => ({
    ...exposure,
    settings: [...exposure['settings']!.filter((c) => c['name'] !== name), { row_id: name, name, value }],
  });
  const edits: [string, CampaignText][] = [
    ['a date', edited(exposure, 'determinations', 1, { value: '2100' })],
    ['a contact', edited(exposure, 'units', 0, { bottom: '2.4 m' })],
    ['no contact', edited(exposure, 'units', 0, { contact_below: '' })],
    ['a sediment', edited(exposure, 'units', 0, { sediment: 'sand' })],
    ['the base of a layer', edited(exposure, 'units', 1, { bottom: '3.5 m' })],
    ['an undated sample', edited(exposure, 'samples', 4, { top: '2.70 m', bottom: '2.71 m' })],
    ['the depth reached', edited(exposure, 'pushes', 0, { to: '4.6 m' })],
    ['the oldest age', withSetting('oldest_age_cal_bp', '200')],
    ['the seed', withSetting('seed', '5')],
    ['the hole', renamed({ ...withSetting('age_depth', 'B') }, 'A', 'B')],
  ];
  assert.deepEqual(
    faults(exposure, edits, true, (step) => step === 'age against depth'),
    [],
  );

  const sharing: CampaignText = {
    ...exposure,
    determinations: exposure['determinations']!.map((row) => ({
      ...row,
      systematic_error: '40',
      systematic_group: 'lamp',
    })),
  };
  const ofSharing: [string, CampaignText][] = [
    ['a date', edited(sharing, 'determinations', 1, { value: '2100' })],
    ['its shared part', edited(sharing, 'determinations', 1, { systematic_error: '20' })],
    [
      'the seed',
      { ...sharing, settings: [...sharing['settings']!, { row_id: 'seed', name: 'seed', value: '5' }] },
    ],
  ];
  assert.deepEqual(
    faults(sharing, ofSharing, true, (step) => step === 'ages against depth together'),
    [],
  );
});

test('so is one that forgets an input of environments through time', () => {
  /** Three exposures of steady 1 mm/yr, two of them on a line, with points for a curve. */
  const depths = [1, 2, 3, 4];
  const each = <T>(make: (hole: string, depth: number, i: number) => T): T[] =>
    ['A', 'B', 'C'].flatMap((hole, i) => depths.map((depth) => make(hole, depth, i)));
  const unit = (hole: string, label: string, top: number, bottom: number, environment: string): Cells => ({
    row_id: `${hole} ${label}`,
    hole,
    unit: label,
    basis: 'in_situ',
    top: `${top} m`,
    bottom: `${bottom} m`,
    sediment: 'mud',
    environment,
  });
  const start: CampaignText = {
    settings: Object.entries({ age_depth: 'A; B; C', depth_draws: '100', chains: '2', draws: '50' }).map(
      ([name, value]) => ({ row_id: name, name, value }),
    ),
    sites: [{ site: 'S', name: 'S' }],
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    tide_levels: ['MHW', 'MSL', 'MLW'].map((level, i) => ({
      row_id: level,
      site: 'S',
      level,
      elevation_m: String(1 - i),
      sigma_m: '0.1',
      datum: 'MSL',
    })),
    holes: ['A', 'B', 'C'].map((hole, i) => ({
      hole,
      site: 'S',
      method: 'exposure',
      latitude_deg: '-46.4',
      longitude_deg: `-121.${300 + i}`,
      reference_elevation_m: '1',
      reference_datum: 'MSL',
    })),
    section_lines: [{ line: 'L', holes: 'A; B' }],
    units: ['A', 'B', 'C'].flatMap((hole) => [
      unit(hole, '1', 0, hole === 'A' ? 2.5 : 1.5, 'high marsh'),
      unit(hole, '2', hole === 'A' ? 2.5 : 1.5, 4.2, 'land surface'),
    ]),
    samples: each((hole, depth) => ({
      sample: `${hole}${depth}`,
      hole,
      basis: 'in_situ',
      top: `${depth} m`,
      bottom: `${depth + 0.01} m`,
    })),
    determinations: each((hole, depth) => ({
      lab_code: `${hole}-${depth}`,
      sample: `${hole}${depth}`,
      method: 'luminescence',
      value: String(1000 * depth),
      error: '60',
    })),
    points: each((hole, depth) => ({
      point: `${hole}${depth}`,
      sample: `${hole}${depth}`,
      type: 'index',
      lower: 'MLW',
      upper: 'MHW',
    })),
  };
  const withSetting = (name: string, value: string): CampaignText => ({
    ...start,
    settings: [...start['settings']!.filter((c) => c['name'] !== name), { row_id: name, name, value }],
  });
  const edits: [string, CampaignText][] = [
    ['an environment', edited(start, 'units', 0, { environment: 'lagoon' })],
    ['the label of a layer', edited(start, 'units', 3, { unit: 'peat' })],
    ['a date', edited(start, 'determinations', 1, { value: '2200' })],
    ['the oldest date of all, off the line', edited(start, 'determinations', 11, { value: '6000' })],
    ['ages drawn', withSetting('section_ages', '1800')],
    ['the edge', withSetting('edge_inside', 'high marsh')],
    ['a tide level', edited(start, 'tide_levels', 0, { elevation_m: '1.3' })],
  ];
  assert.deepEqual(
    faults(start, edits, true, (step) => step === 'environments of a hole' || step === 'line through time'),
    [],
  );
});
