/** What the trace says of reservoir offsets. */
import type { Row } from '@stillstand/campaign/tables';
import type { PooledOffset, ReservoirOffset } from '@stillstand/science/dating';
import type { Told } from '../runner/step.ts';
import { asReported } from './dates.ts';

export const tellOffset = (row: Row<'determinations'>, offset: ReservoirOffset | null): Told => ({
  label: `ΔR of ${row.lab_code}`,
  how: `${asReported(row)} less ${row.calibration_curve} at ${
    row.known_age_ce === null ? `the date ${row.paired_with}` : `${row.known_age_ce} CE`
  }`,
  value: offset?.offset_yr ?? null,
  sigma: offset?.error_yr ?? null,
  unit: '14C yr',
  signed: true,
});

export const tellReservoir = (group: string, pool: PooledOffset): Told => ({
  label: `ΔR of ${group}`,
  how: `weighted mean of ${pool.n}; its error (±${pool.error_of_mean_yr.toFixed(0)}) and the spread of the shells (±${pool.spread_yr.toFixed(0)}) in quadrature`,
  value: pool.mean_yr,
  sigma: pool.new_sample_error_yr,
  unit: '14C yr',
  signed: true,
});
