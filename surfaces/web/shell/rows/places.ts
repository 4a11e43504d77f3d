/** Where a row, or a problem, is opened. */
import type { TypedTables } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { isTableName, type TableName } from '@stillstand/campaign/tables';
import type { StageName } from '../stage.ts';

export interface RowPlace {
  table: TableName;
  row_id: string;
  /** Of a reading: cells that it is to be amended to, not yet written. */
  amend?: Readonly<Record<string, string>>;
}

/** A row, or the stage where there is none. */
export type ProblemPlace = { row: RowPlace } | { row: null; table: TableName; stage: StageName };

export const rowPlace = (table: string, row_id: string | null): RowPlace | null =>
  isTableName(table) && row_id !== null ? { table, row_id } : null;

/** Null for what is wrong with the files themselves: nothing in the app shows those. */
export function placeOfProblem({ table, row_id, label }: Problem, rowsOf: TypedTables): ProblemPlace | null {
  if (!isTableName(table)) return null;
  const rows = rowsOf(table);
  // The curve names a setting without knowing whether it has a row.
  const named = rows.find((row) =>
    row_id === null ? table === 'settings' && row.cells['name']?.trim() === label : row.row_id === row_id,
  );
  if (named !== undefined) return { row: { table, row_id: named.row_id } };
  return { row: null, table, stage: table === 'settings' && isOfCurve(label) ? 'Curve' : PLACES[table] };
}

/** Of the settings that may be missed, only the datum of all heights is chosen on Plan. */
const isOfCurve = (setting: string | null): boolean => setting !== null && setting !== 'datum';

/** In which stage a table is worked on. */

export const PLACES: Readonly<Record<TableName, StageName>> = {
  sites: 'Plan',
  datums: 'Plan',
  datum_shifts: 'Plan',
  benchmarks: 'Plan',
  levelling: 'Plan',
  level_loops: 'Plan',
  gauges: 'Plan',
  gauge_readings: 'Plan',
  gauge_means: 'Plan',
  constituents: 'Plan',
  tide_levels: 'Plan',
  tide_ranges: 'Plan',
  pipes: 'Plan',
  samplers: 'Plan',
  field_days: 'Plan',
  permits: 'Plan',
  risks: 'Plan',
  checks: 'Plan',
  settings: 'Plan',
  holes: 'Drill',
  ground_levels: 'Drill',
  string_items: 'Drill',
  drives: 'Drill',
  soundings: 'Drill',
  water_added: 'Drill',
  runs: 'Drill',
  pieces: 'Drill',
  pushes: 'Drill',
  sections: 'Drill',
  units: 'Describe',
  photos: 'Describe',
  samples: 'Describe',
  planned_samples: 'Describe',
  laboratories: 'Describe',
  custody: 'Describe',
  measurements: 'Describe',
  correlations: 'Describe',
  determinations: 'Date',
  calibration_curves: 'Plan',
  age_densities: 'Plan',
  points: 'Points',
  point_errors: 'Points',
  other_curves: 'Curve',
  pipe_stock: 'Plan',
  rated_gear: 'Plan',
  gear: 'Plan',
  packing: 'Plan',
  cable_marks: 'Drill',
  events: 'Drill',
  instrument_checks: 'Plan',
  tide_reductions: 'Plan',
  lead_profiles: 'Date',
  sequences: 'Date',
  compiled_points: 'Points',
  section_lines: 'Describe',
  section_profile: 'Describe',
  section_boundaries: 'Describe',
  training_sets: 'Points',
};
