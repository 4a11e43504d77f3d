/** Dated cores of data/ (README there) as horizons. */
import assert from 'node:assert/strict';
import { randomStream } from '@stillstand/science/base';
import {
  type AgeDepth,
  ageDepth,
  ageDepthDefaults,
  calibrate,
  type DatedHorizon,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { readCsv } from '../calibration/read-csv.ts';

const COLUMNS = ['core', 'lab_code', 'depth_top_cm', 'depth_bottom_cm', 'c14_age', 'error_yr'] as const;

/** The depth anywhere in the sample, or within a centimetre where a point is given: 100 states, each date by itself. */
export function datedCore(
  file: string,
  core: string,
  curve: YearlyCurve,
  seed: number,
  without: readonly string[] = [],
): DatedHorizon[] {
  return readCsv(`../../age-depth/data/${file}`, COLUMNS)
    .filter((row) => row.core === core && !without.includes(row.lab_code))
    .map(({ lab_code, ...row }) => {
      const stream = randomStream(seed).split(lab_code);
      const top = Number(row.depth_top_cm);
      const bottom = Math.max(Number(row.depth_bottom_cm), top + 1);
      const age = calibrate(
        { c14_age: Number(row.c14_age), error_yr: Number(row.error_yr), offset_yr: 0, offset_sd_yr: 0 },
        curve,
      );
      assert(age.kind === 'calibrated', `${lab_code}: ${age.kind}`);
      const depth_m = Float64Array.from(
        { length: 100 },
        () => (top + (bottom - top) * stream.uniform()) / 100,
      );
      return { id: lab_code, depth_m, age };
    });
}

export interface CaesiumSlice {
  depth_top_cm: number;
  depth_bottom_cm: number;
  cs137_bq_kg: number;
}

export function caesiumOf(core: string): CaesiumSlice[] {
  const columns = ['core', 'depth_top_cm', 'depth_bottom_cm', 'cs137_bq_kg'] as const;
  return readCsv('../../age-depth/data/sand_tump_points_caesium.csv', columns)
    .filter((row) => row.core === core)
    .map((row) => ({
      depth_top_cm: Number(row.depth_top_cm),
      depth_bottom_cm: Number(row.depth_bottom_cm),
      cs137_bq_kg: Number(row.cs137_bq_kg),
    }));
}

export function modelled(
  horizons: DatedHorizon[],
  taken_ce: number,
  bottom_m: number,
  seed: number,
): AgeDepth {
  const surface = { age_cal_bp: 1950 - taken_ce, sd_yr: 1 };
  const result = ageDepth({ horizons, surface, breaks: [], bottom_m }, ageDepthDefaults, randomStream(seed));
  assert(result.kind === 'age_depth');
  return result;
}

export const named = ({ clocks, diagnostics: d }: AgeDepth): string => {
  const out = clocks
    .filter((h) => h.outlier_probability > 0.5)
    .map((h) => `${h.id} ${h.outlier_probability.toFixed(2)}`);
  return `${d.converged ? 'converged' : `not converged (R-hat ${d.rhat_max.toFixed(3)})`} after ${d.sweeps} sweeps; out of place: ${out.join(', ') || 'none'}`;
};
