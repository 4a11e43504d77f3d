/** A sample of the surface: levelled itself, with no depth in a hole. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { Elevation } from '../heights/elevation.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { tellSurfaceElevation } from '../words/samples.ts';
import { nowhere, type PlacedSample } from './placed-sample.ts';

export function levelledSample(
  run: Runner,
  row: Row<'samples'>,
  heights: Heights,
  problems: Problem[],
): Known<PlacedSample> {
  const to = row.elevation_m === null ? null : heights.shift(row.elevation_datum);
  if (row.elevation_m === null || to === null) {
    problems.push(
      problem({
        severity: 'error',
        code: to === null && row.elevation_m !== null ? 'no-datum-shift' : 'sample-not-placed',
        table: 'samples',
        row_id: row.row_id,
        label: row.sample,
        column: row.elevation_m === null ? 'elevation_m' : 'elevation_datum',
        found: row.elevation_m === null ? '' : (row.elevation_datum ?? ''),
        expected: 'an elevation on a datum that leads to the campaign datum',
        fix: 'State the elevation of the sample and its datum; without them it makes no point.',
      }),
    );
  }
  const height: Elevation | null =
    row.elevation_m === null || to === null
      ? null
      : {
          value_m: row.elevation_m + to.value.shift_m,
          levelling_sigma_m: row.elevation_sigma_m,
          group: `sample ${row.sample}`,
          benchmarks: [],
          shifts: to.value.shifts,
        };
  const thickness_m = row.top_m === null || row.bottom_m === null ? null : Math.abs(row.bottom_m - row.top_m);
  const known = run.row('samples', row, `sample ${row.sample}`);
  return run.part(
    traceId.sample(row.sample).elevation,
    nowhere(row, row.site, height, thickness_m),
    tellSurfaceElevation(row.sample, height),
    to === null ? [known] : [known, to],
  );
}
