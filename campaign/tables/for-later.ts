/**
 * Tables and columns that have their place in the document and are not used by any computation, figure or table of the
 * results yet. What is written in them is kept, shown as entered, and said to be unused.
 */
import type { TableName } from './schemas.ts';

const TABLES: readonly TableName[] = ['training_sets'];

const COLUMNS: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  units: ['facies'],
};

/** Records of what was done, what something is, or where a number comes from: shown as entered, not computed with. */
const RECORDS: typeof COLUMNS = {
  sites: ['position_accuracy_m'],
  datums: ['geoid_model'],
  datum_shifts: ['source'],
  benchmarks: ['date', 'source'],
  gauge_means: ['source'],
  constituents: ['source'],
  tide_levels: ['epoch'],
  samplers: ['capacity', 'mass_kg'],
  holes: ['backfill'],
  ground_levels: ['cause'],
  pieces: ['tray', 'condition'],
  units: ['organic'],
  calibration_curves: ['source'],
  age_densities: ['source'],
  determinations: ['delta13c_permil'],
};

const has = (columns: typeof COLUMNS, table: TableName, column: string): boolean =>
  columns[table]?.includes(column) === true;

/** A new campaign begins without it. */
export const isTableForLater = (table: TableName): boolean => TABLES.includes(table);

export const isColumnForLater = (table: TableName, column: string): boolean => has(COLUMNS, table, column);

export const isRecordOnly = (table: TableName, column: string): boolean => has(RECORDS, table, column);
