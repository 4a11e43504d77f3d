/** What a person calls a row, and rows of a table: "hole H3", "12 readings and 4 units". */
import { schemas, type TableName } from './schemas.ts';
import { labelColumn } from './table-schema.ts';

const WORDS: Readonly<Record<TableName, readonly [one: string, many: string]>> = {
  sites: ['site', 'sites'],
  datums: ['datum', 'datums'],
  datum_shifts: ['datum shift', 'datum shifts'],
  benchmarks: ['benchmark', 'benchmarks'],
  levelling: ['sight', 'sights'],
  gauges: ['gauge', 'gauges'],
  gauge_readings: ['gauge reading', 'gauge readings'],
  gauge_means: ['annual mean', 'annual means'],
  constituents: ['tidal constituent', 'tidal constituents'],
  tide_levels: ['tide level', 'tide levels'],
  tide_ranges: ['tidal range', 'tidal ranges'],
  pipes: ['pipe', 'pipes'],
  samplers: ['sampler', 'samplers'],
  holes: ['hole', 'holes'],
  ground_levels: ['ground level', 'ground levels'],
  string_items: ['string item', 'string items'],
  drives: ['drive', 'drives'],
  soundings: ['sounding', 'soundings'],
  water_added: ['filling', 'fillings'],
  runs: ['run', 'runs'],
  pieces: ['piece', 'pieces'],
  pushes: ['push', 'pushes'],
  sections: ['section', 'sections'],
  units: ['unit', 'units'],
  photos: ['photo', 'photos'],
  samples: ['sample', 'samples'],
  measurements: ['measurement', 'measurements'],
  determinations: ['date', 'dates'],
  points: ['point', 'points'],
  point_errors: ['error component', 'error components'],
  other_curves: ['level of another curve', 'levels of other curves'],
  correlations: ['correlation', 'correlations'],
  field_days: ['field day', 'field days'],
  checks: ['check', 'checks'],
  settings: ['setting', 'settings'],
  pipe_stock: ['item of pipe', 'items of pipe'],
  rated_gear: ['rated part', 'rated parts'],
  gear: ['piece of gear', 'pieces of gear'],
  cable_marks: ['cable mark', 'cable marks'],
  events: ['event', 'events'],
  instrument_checks: ['instrument check', 'instrument checks'],
  tide_reductions: ['tide reduction', 'tide reductions'],
  lead_profiles: ['lead-210 profile', 'lead-210 profiles'],
  sequences: ['member of a sequence', 'members of sequences'],
  compiled_points: ['compiled point', 'compiled points'],
  section_lines: ['section line', 'section lines'],
  section_profile: ['place of a profile', 'places of profiles'],
  section_boundaries: ['section boundary', 'section boundaries'],
  training_sets: ['training sample', 'training samples'],
};

/** Columns that tell a row from its like, where the table has no label. */
const TOLD_BY: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  datum_shifts: ['from', 'to'],
  gauge_means: ['year', 'gauge'],
  constituents: ['constituent', 'gauge'],
  tide_levels: ['level', 'site'],
  tide_ranges: ['age_cal_bp', 'site'],
  units: ['unit', 'hole'],
  photos: ['run', 'hole'],
  measurements: ['property', 'sample', 'hole'],
  point_errors: ['component', 'point'],
  other_curves: ['age_cal_bp', 'curve'],
  correlations: ['hole_a', 'hole_b'],
  field_days: ['date'],
  instrument_checks: ['instrument', 'date'],
};

/** As at the beginning of a sentence. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** "hole H3", "unit 4 of T1", "datum shift CD to MSL". `cells` are as typed. */
export function rowName(table: TableName, cells: Readonly<Record<string, string>>): string {
  const label = labelColumn(table);
  const scope: readonly string[] = schemas[table].scope;
  const columns = label === null ? (TOLD_BY[table] ?? ['hole']) : [label, ...scope];
  const [first = '', ...others] = columns.map((column) => cells[column]?.trim() ?? '').filter(Boolean);
  // The units of a tie may be named by their rows, which tell a person nothing.
  if (table === 'correlations') return [`correlation between ${first}`, ...others].join(' and ');
  return [`${WORDS[table][0]} ${first}`.trim(), ...others].join(table === 'datum_shifts' ? ' to ' : ' of ');
}

export const countedRows = (table: TableName, count: number): string =>
  `${count} ${WORDS[table][count === 1 ? 0 : 1]}`;

/** "12 readings, 4 units and 2 samples", in the order of the tables; readings of every kind together. */
export function countedTables(tables: readonly TableName[]): string {
  const counts = new Map<readonly [string, string], number>();
  for (const table of Object.keys(schemas) as TableName[]) {
    const words = schemas[table].readings ? READINGS : WORDS[table];
    const count = tables.filter((each) => each === table).length;
    if (count > 0) counts.set(words, (counts.get(words) ?? 0) + count);
  }
  const said = [...counts].map(([[one, many], count]) => `${count} ${count === 1 ? one : many}`);
  return said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`;
}

const READINGS = ['reading', 'readings'] as const;
