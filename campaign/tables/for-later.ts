/**
 * Tables and columns that have their place in the document and are not used by any computation yet. What is written in
 * them is kept and said to be unused; a new campaign begins without them.
 */
import type { TableName } from './schemas.ts';

const TABLES: readonly TableName[] = [
  'tide_reductions',
  'lead_profiles',
  'sequences',
  'compiled_points',
  'section_lines',
  'section_profile',
  'section_boundaries',
  'training_sets',
];

const COLUMNS: Readonly<Partial<Record<TableName, readonly string[]>>> = {
  sites: ['curve'],
  benchmarks: ['ellipsoid_sigma_m', 'geoid_sigma_m'],
  holes: ['target_depth'],
  units: ['facies'],
  measurements: ['hole', 'depth_basis', 'run', 'top', 'bottom', 'qualifier', 'batch'],
  determinations: ['systematic_error', 'systematic_group', 'marine_fraction_error', 'known_age_ce'],
  correlations: ['horizon', 'status'],
};

export const isTableForLater = (table: TableName): boolean => TABLES.includes(table);

export const isColumnForLater = (table: TableName, column: string): boolean =>
  COLUMNS[table]?.includes(column) === true;
