/** The synthetic sets of data/ as curve points, and the outside posterior of each. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadCurve } from '@stillstand/published/curves';
import type { AgeConstraint } from '@stillstand/science/clocks';
import type { CurvePoint } from '@stillstand/science/curve';

type Column =
  | 'id'
  | 'kind'
  | 'rsl_m'
  | 'rsl_sd_m'
  | 'rsl_sigma_m'
  | 'age_bp'
  | 'age_sd_yr'
  | 'c14_age'
  | 'c14_error'
  | 'quantity'
  | 'at'
  | 'mean'
  | 'sd';
type Row = Partial<Record<Column, string>>;

/** Rows of a plain CSV file without quotes. */
function rows(file: string): Row[] {
  const [head, ...lines] = readFileSync(join(import.meta.dirname, 'data', file), 'utf8')
    .trim()
    .split(/\r?\n/);
  const names = head!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? '']));
  });
}

export interface OutsideValue {
  quantity: string;
  /** Age in cal BP of a level or rate, or label of a point. */
  at: string;
  mean: number;
  sd: number;
}

export async function referenceSet(
  name: string,
): Promise<{ points: CurvePoint[]; posterior: OutsideValue[] }> {
  const curve = await loadCurve('intcal20');
  const points = rows(`${name}.csv`).map((row): CurvePoint => {
    const age: AgeConstraint =
      row.age_bp !== undefined
        ? { kind: 'normal', mean_cal_bp: Number(row.age_bp), sd_yr: Number(row.age_sd_yr) }
        : {
            kind: 'radiocarbon',
            c14_age: Number(row.c14_age),
            error_yr: Number(row.c14_error),
            curve,
            offset_yr: 0,
            offset_sd_yr: 0,
            delta_r_group: null,
          };
    return {
      id: row.id!,
      kind: (row.kind ?? 'index') as CurvePoint['kind'],
      height_m: Number(row.rsl_m),
      sigma_m: Number(row.rsl_sd_m ?? row.rsl_sigma_m),
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age,
    };
  });
  const posterior = rows(`${name}_posterior.csv`).map((row) => ({
    quantity: row.quantity!,
    at: row.at!,
    mean: Number(row.mean),
    sd: Number(row.sd),
  }));
  return { points, posterior };
}
