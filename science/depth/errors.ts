/**
 * Errors of what the rig says has entered and has been removed: all normal, each a sum of independent parts, some of them
 * shared (docs/methods/rig.md). A pin is off by its own sounding, by where the shoe is (shared by the pins of one
 * penetration) and by all removed before; a run between two soundings makes that last part the error of the pin before
 * it, without the shoe, and that of the sounding after it; another run adds its own.
 */
import { cholesky } from '@stillstand/science/base';
import type { Registration } from '@stillstand/science/rig';
import { SAME_M } from './cells.ts';

export interface ReadingErrors {
  pins: number;
  runs: number;
  /** Lower triangle, row-major, of order pins + runs, pins first: errors = factor · independent normals. */
  factor: Float64Array;
}

/** No reading is without error. */
const LEAST_SIGMA_M = 1e-4;

export function readingErrors(registration: readonly Registration[]): ReadingErrors {
  const n = registration.length;
  const pins: Float64Array[] = [];
  const runs: Float64Array[] = [];
  // independent parts, in the order met: at most two for each reading; a row is zero past those met so far
  let parts = 0;
  let place = 0;
  let removed = new Float64Array(2 * n);
  let last = removed;
  let deepest = Number.NEGATIVE_INFINITY;
  for (const r of registration) {
    const own = Math.max(LEAST_SIGMA_M, r.sigma_m);
    if (r.kind === 'run') {
      removed = (r.from === 'soundings' ? last : removed).slice();
      removed[parts++] = own;
      runs.push(removed);
      continue;
    }
    if (r.penetration_m > deepest + SAME_M) place = parts++;
    deepest = Math.max(deepest, r.penetration_m);
    last = removed.slice();
    last[parts++] = own;
    const row = last.slice();
    row[place] = r.place_sigma_m;
    pins.push(row);
  }
  const rows = [...pins, ...runs];
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const a = rows[i]!;
    for (let j = 0; j <= i; j++) {
      const b = rows[j]!;
      let sum = 0;
      for (let k = 0; k < parts; k++) sum += a[k]! * b[k]!;
      covariance[i * n + j] = sum;
      covariance[j * n + i] = sum;
    }
  }
  const factor = cholesky(covariance, n);
  if (factor === null) throw new RangeError('errors of readings: expected a positive definite covariance');
  return { pins: pins.length, runs: runs.length, factor };
}
