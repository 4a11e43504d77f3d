/** What a person calls a row, and rows of a table: "hole H3", "12 readings and 4 units". */
import { settingName } from './column-name.ts';
import { clockOf, dateOf } from './iso-time.ts';
import { schemas, type TableName } from './schemas.ts';
import { labelColumn } from './table-schema.ts';

const WORDS: Readonly<Record<TableName, readonly [one: string, many: string]>> = {
  sites: ['site', 'sites'],
  datums: ['datum', 'datums'],
  datum_shifts: ['datum shift', 'datum shifts'],
  benchmarks: ['benchmark', 'benchmarks'],
  levelling: ['sight', 'sights'],
  level_loops: ['level loop', 'level loops'],
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
  planned_samples: ['planned sample', 'planned samples'],
  laboratories: ['laboratory', 'laboratories'],
  custody: ['entry of the chain', 'entries of the chain'],
  measurements: ['measurement', 'measurements'],
  determinations: ['date', 'dates'],
  calibration_curves: ['row of a calibration curve', 'calibration curves'],
  age_densities: ['row of an age density', 'age densities'],
  points: ['point', 'points'],
  point_errors: ['error component', 'error components'],
  other_curves: ['level of another curve', 'levels of other curves'],
  correlations: ['correlation', 'correlations'],
  field_days: ['field day', 'field days'],
  permits: ['permit', 'permits'],
  risks: ['risk', 'risks'],
  checks: ['check', 'checks'],
  settings: ['setting', 'settings'],
  pipe_stock: ['item of pipe', 'items of pipe'],
  rated_gear: ['rated part', 'rated parts'],
  gear: ['piece of gear', 'pieces of gear'],
  packing: ['line of the gear list', 'lines of the gear list'],
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

/** Columns that distinguish a row from others of its kind where the table has no label: its own, then those it is of. */
const KNOWN_BY: Readonly<
  Partial<Record<TableName, readonly [own: readonly string[], of: readonly string[]]>>
> = {
  datum_shifts: [['from', 'to'], []],
  levelling: [['point'], ['loop']],
  gauge_readings: [[], ['gauge']],
  gauge_means: [['year'], ['gauge']],
  constituents: [['constituent'], ['gauge']],
  tide_levels: [['level'], ['site']],
  tide_ranges: [['age_cal_bp'], ['site']],
  string_items: [['joint'], ['hole']],
  pieces: [[], ['run', 'hole']],
  sections: [['order'], ['push', 'hole']],
  units: [['unit'], ['hole']],
  custody: [['sample', 'run', 'action'], ['hole']],
  photos: [['run'], ['hole']],
  measurements: [['property'], ['sample', 'hole']],
  calibration_curves: [['age_cal_bp'], ['curve']],
  age_densities: [['age_cal_bp'], ['density']],
  point_errors: [['component'], ['point']],
  other_curves: [['age_cal_bp'], ['curve']],
  // Its units may be named by their rows, which say nothing to a person.
  correlations: [['hole_a', 'hole_b'], []],
  field_days: [['date'], []],
  checks: [[], ['hole', 'date']],
  events: [[], ['hole', 'date']],
  instrument_checks: [['instrument'], ['date']],
  tide_reductions: [['gauge'], ['site']],
  sequences: [['determination'], ['sequence']],
  section_profile: [['distance_m'], ['line']],
  section_boundaries: [['hole_a', 'hole_b'], ['line']],
  training_sets: [['sample'], ['set']],
};

/** What stands between two labels of a row’s own. */
const BETWEEN: Readonly<Partial<Record<TableName, string>>> = {
  datum_shifts: ' to ',
  correlations: ' and ',
  section_boundaries: ' and ',
};

/** As at the beginning of a sentence. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

type Cells = Readonly<Record<string, string>>;

/**
 * "hole H3", "unit 4 of T1", "datum shift CD to MSL", "drive at 10:42 of T2". `cells` are as typed; `alike` are those of
 * the other rows of the table, from which a reading is distinguished by its date and its number where its clock does not.
 */
export function rowName(table: TableName, cells: Cells, alike: readonly Cells[] = []): string {
  const { own, of } = rowWords(table, cells, alike);
  return [own, ...of.map(([, label]) => label)].join(' of ');
}

/** The same from the outside in: "hole T2, drive at 10:42". */
export function placeName(table: TableName, cells: Cells, alike: readonly Cells[] = []): string {
  const { own, of } = rowWords(table, cells, alike);
  return [...of.toReversed().map((words) => words.join(' ')), own].join(', ');
}

function rowWords(table: TableName, cells: Cells, alike: readonly Cells[]) {
  const label = labelColumn(table);
  const [ownColumns, ofColumns] =
    label === null ? (KNOWN_BY[table] ?? [[], ['hole']]) : [[label], schemas[table].scope];
  const typed = (column: string): string => cells[column]?.trim() ?? '';
  const of = ofColumns.flatMap((column) => (typed(column) === '' ? [] : [[column, typed(column)] as const]));
  const labels = ownColumns.map(typed).filter(Boolean);
  if (table === 'settings') return { own: `setting “${settingName(labels.join(''))}”`, of };
  const [word] = WORDS[table];
  const joint = BETWEEN[table] === ' and ' ? ' between ' : ' ';
  const named = [word, labels.join(BETWEEN[table] ?? ' ')].filter(Boolean).join(joint);
  if (!schemas[table].readings || label !== null) return { own: named, of };
  const others = alike.filter((other) =>
    ofColumns.every((column) => (other[column]?.trim() ?? '') === typed(column)),
  );
  const isAlike = (other: Cells): boolean =>
    ownColumns.every((column) => (other[column]?.trim() ?? '') === typed(column));
  return { own: `${named}${whenRead(cells, labels.length > 0, others, others.filter(isAlike))}`, of };
}

/** " at 10:42"; the date where the others are of several, the number where nothing else distinguishes it. */
function whenRead(
  cells: Cells,
  hasLabel: boolean,
  others: readonly Cells[],
  alike: readonly Cells[],
): string {
  const minuteOf = ({ time = '' }: Cells): string => `${dateOf(time.trim())} ${clockOf(time.trim())}`;
  const clock = clockOf(cells['time']?.trim());
  const isAlone = alike.filter((other) => minuteOf(other) === minuteOf(cells)).length < 2;
  const seq = cells['seq']?.trim() ?? '';
  const number = seq === '' || (isAlone && (clock !== '' || hasLabel)) ? '' : ` number ${seq}`;
  if (clock === '') return number;
  const isOneDay = new Set([cells, ...others].map(({ time }) => dateOf(time?.trim()))).size === 1;
  return `${number} at ${clock}${isOneDay ? '' : ` on ${dateOf(cells['time'])}`}`;
}

/** "drives", "ground levels": all rows of a table. */
export const tableWords = (table: TableName): string => WORDS[table][1];

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
