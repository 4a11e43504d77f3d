/**
 * The plain table: a row with the reference water level and the range already worked out, as people keep them in a
 * spreadsheet. Every error column is of one stated sigma, and so is the result.
 */

/** A number that could not be used, and where. */
export interface PlainProblem {
  ok: false;
  column: string;
  found: string;
  expected: string;
  fix: string;
}

export interface PlainPoint {
  ok: true;
  id: string;
  kind: 'index' | 'terrestrial' | 'marine';
  /** Index: the sea's height. Terrestrial: the sea was below it. Marine: above. Metres. */
  rsl_m: number;
  /** Root-sum-square of `components`, metres, of the stated sigma. */
  error_m: number;
  /** Metres, of the stated sigma; half the indicative range counts as 2 sigma (community protocol). */
  components: Record<string, number>;
  remarks: string[];
}

/** A row as text, by column name. */
export interface PlainCells {
  readonly [column: string]: string | undefined;
  readonly id?: string;
  readonly kind?: string;
  readonly indicative_range_m?: string;
}

const KINDS = ['index', 'terrestrial', 'marine'] as const;
const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const ERROR_COLUMN = /^error_(.+)_m$/;

/**
 * A point from the cells of one row: `id, kind, elevation_m, reference_water_level_m, indicative_range_m` and any
 * `error_NAME_m`. An empty error cell is no error; an index point must have its range (0 is allowed); a limiting
 * point's reference water level is the tide level its bound uses, and its range is not used. Other columns are
 * ignored. `sigmaLevel` is that of every error column.
 */
export function plainPoint(cells: PlainCells, sigmaLevel: 1 | 2 = 2): PlainPoint | PlainProblem {
  const id = (cells.id ?? '').trim();
  const kind = KINDS.find((k) => k === (cells.kind ?? '').trim().toLowerCase());
  if (kind === undefined) {
    return problem('kind', cells.kind ?? '', 'index, terrestrial or marine', 'Say what kind of point it is.');
  }
  const elevation = metres(cells, 'elevation_m');
  if (typeof elevation !== 'number') return elevation;
  const level = metres(cells, 'reference_water_level_m');
  if (typeof level !== 'number') return level;

  const components = new Map<string, number>();
  const remarks: string[] = [];
  const rangeCell = (cells.indicative_range_m ?? '').trim();
  if (kind === 'index') {
    const range = length(cells, 'indicative_range_m');
    if (typeof range !== 'number') return range;
    components.set('indicative_range', ((range / 2) * sigmaLevel) / 2);
  } else if (rangeCell !== '') {
    remarks.push(`indicative_range_m ${rangeCell} is not used: a limiting point has no range`);
  }
  for (const column of Object.keys(cells)) {
    const name = ERROR_COLUMN.exec(column)?.[1];
    if (name === undefined || (cells[column] ?? '').trim() === '') continue;
    const error = length(cells, column);
    if (typeof error !== 'number') return error;
    if (name === 'indicative_range' && kind === 'index') {
      return problem(
        column,
        cells[column] ?? '',
        'the range in indicative_range_m only',
        'Remove this column: half of indicative_range_m is counted already.',
      );
    }
    components.set(name, error);
  }
  let sum = 0;
  for (const part of components.values()) sum += part * part;
  return {
    ok: true,
    id,
    kind,
    rsl_m: elevation - level,
    error_m: Math.sqrt(sum),
    components: Object.fromEntries(components),
    remarks,
  };
}

function metres(cells: PlainCells, column: string, example = '-3.20'): number | PlainProblem {
  const found = (cells[column] ?? '').trim();
  // The true minus that typesetters and some spreadsheets write is a minus.
  const text = found.replace('−', '-');
  const value = DECIMAL.test(text) ? Number(text) : Number.NaN;
  if (Number.isFinite(value)) return value;
  return problem(column, found, 'a number of metres', `Give ${column} as a number, e.g. ${example}.`);
}

function length(cells: PlainCells, column: string): number | PlainProblem {
  const value = metres(cells, column, '0.20');
  if (typeof value !== 'number' || value >= 0) return value;
  return problem(column, cells[column] ?? '', '0 m or more', `${column} is a size: give it without a minus.`);
}

const problem = (column: string, found: string, expected: string, fix: string): PlainProblem => ({
  ok: false,
  column,
  found,
  expected,
  fix,
});
