/** Laboratory values where they lie: at their sample, or at a place in a core. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Estimate, type MeasurementResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { elevationOf } from '@stillstand/science/strata';
import { complaints } from '../complaint.ts';
import { elevationSigma } from '../heights/elevation.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellMeasurement } from '../words/samples.ts';
import { measuredPlace, placedIn } from './core-place.ts';
import type { ModelledHole } from './holes.ts';
import { type Ends, middleOf } from './sample-in-core.ts';
import type { Samples } from './samples.ts';

type MeasurementRow = Row<'measurements'>;
type Where = Pick<MeasurementResult, 'hole' | 'depth_m' | 'thickness_m' | 'elevation_m'>;

/** Without its draws: nothing is computed from the depth of a measurement, and there may be thousands. */
const placeOfMeasurement = step(
  'place of a measurement',
  (ends: { top: Ends; bottom: Ends }): { depth: Estimate; thickness_m: number } => {
    const { depth, thickness_m } = middleOf(ends);
    return { depth, thickness_m };
  },
);

const NOWHERE: Where = { hole: null, depth_m: null, thickness_m: null, elevation_m: null };

export function placeMeasurements(
  run: Runner,
  campaign: Campaign,
  holes: ReadonlyMap<string, ModelledHole>,
  samples: Samples,
): { made: MeasurementResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<MeasurementRow>(
    campaign,
    'measurements',
    ({ property, sample, hole }) => `${property} of ${sample ?? hole ?? 'no sample'}`,
  );
  const unplaced = (row: MeasurementRow, column: string, found: string, expected: string, fix: string) => {
    complain(row, 'measurement-not-placed', column, found, expected, fix, 'warning');
    return { where: { ...NOWHERE, hole: row.hole }, parts: [] };
  };

  const placed = (row: MeasurementRow): { where: Where; parts: readonly Traced[] } => {
    const known = row.sample === null ? undefined : samples.of.get(row.sample);
    if (known !== undefined) {
      const { hole, depth_m, thickness_m, elevation_m } = known.value.result;
      return { where: { hole, depth_m, thickness_m, elevation_m }, parts: [known] };
    }
    const hole = row.hole === null ? undefined : holes.get(row.hole);
    if (hole === undefined) {
      return unplaced(row, 'sample', row.sample ?? row.hole ?? '', 'a sample, or a hole with a depth', LATER);
    }
    const top = row.top_m ?? row.bottom_m;
    if (top === null || row.depth_basis === null) {
      const column = row.depth_basis === null ? 'depth_basis' : 'top';
      return unplaced(row, column, '', 'a basis and a top', LATER);
    }
    return inCore(row, hole, top);
  };

  const inCore = (row: MeasurementRow, hole: ModelledHole, top: number) => {
    const place = measuredPlace(row.depth_basis, row.run, top, row.bottom_m ?? top);
    const {
      placed: { value },
      parts,
    } = placedIn(run, hole, place);
    if (!value.ok) return unplaced(row, value.column, value.found, value.expected, value.fix);
    const { top: from, bottom: to } = value;
    const middle: Known<{ depth: Estimate; thickness_m: number }> = run.untold(placeOfMeasurement, {
      top: run.plain({ value: from.value, draws: from.draws }),
      bottom: run.plain({ value: to.value, draws: to.draws }),
    });
    const { depth, thickness_m } = middle.value;
    const ground = hole.ground?.value ?? null;
    const elevation_m =
      ground === null ? null : elevationOf(depth, { value: ground.value_m, sigma: elevationSigma(ground) });
    return {
      where: { hole: row.hole, depth_m: depth, thickness_m, elevation_m },
      parts: hole.ground === null ? parts : [...parts, hole.ground],
    };
  };

  const made = campaign.rows.measurements.map((row): MeasurementResult => {
    const { where, parts } = placed(row);
    const { row_id, property, value, sigma, unit, qualifier, method, batch, sample } = row;
    const result = { row_id, property, value, sigma, unit, qualifier, method, batch, sample, ...where };
    const known = run.row('measurements', row, `${property}${sample === null ? '' : ` of ${sample}`}`);
    run.part(traceId.measurement(row_id), result, tellMeasurement(result), [known, ...parts]);
    return result;
  });
  return { made, problems };
}

const LATER = 'State where it lay. Until then it is in the table of measurements and in no drawing.';
