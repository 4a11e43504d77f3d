/** Laboratory values where they lie: at their sample, or at a place in a core. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Estimate, type MeasurementResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { elevationOf } from '@stillstand/science/strata';
import { complaints } from '../complaint.ts';
import { elevationSigma } from '../heights/elevation.ts';
import type { Runner } from '../runner/runner.ts';
import { step, type Traced } from '../runner/step.ts';
import { tellMeasurement } from '../words/samples.ts';
import { measuredPlace, partsOf } from './core-place.ts';
import type { ModelledHole } from './holes.ts';
import { type Core, type CorePlace, type NotPlaced, type Placed, placeCore } from './place.ts';
import { middleOf } from './sample-in-core.ts';
import type { Samples } from './samples.ts';

export type MeasurementRow = Row<'measurements'>;
type Where = Pick<MeasurementResult, 'hole' | 'depth_m' | 'thickness_m' | 'elevation_m'>;

/** A measurement with its place and its name in the trace. */
export interface PlacedMeasurement {
  row: MeasurementRow;
  result: MeasurementResult;
  known: Traced;
}

interface Middle {
  ok: true;
  depth: Estimate;
  thickness_m: number;
  doubt: Placed['doubt'];
}

/** All places in the core of one hole at once, without their draws: there may be thousands, and nothing follows from them. */
const placesOfMeasurements = step(
  'places of measurements',
  ({ core, places }: { core: Core; places: readonly CorePlace[] }): (Middle | NotPlaced)[] =>
    places.map((place) => {
      const placed = placeCore(core, place);
      if (!placed.ok) return placed;
      const { depth, thickness_m } = middleOf(placed);
      return { ok: true, depth, thickness_m, doubt: placed.doubt };
    }),
);

/** Problems of measurements, each called by what it is of. */
export const complaintsOfMeasurements = (campaign: Campaign) =>
  complaints<MeasurementRow>(
    campaign,
    'measurements',
    ({ property, sample, hole }) => `${property} of ${sample ?? hole ?? 'no sample'}`,
  );

const NOWHERE: Where = { hole: null, depth_m: null, thickness_m: null, elevation_m: null };

export function placeMeasurements(
  run: Runner,
  campaign: Campaign,
  holes: ReadonlyMap<string, ModelledHole>,
  samples: Samples,
): { made: MeasurementResult[]; placed: PlacedMeasurement[]; problems: Problem[] } {
  const { problems, complain } = complaintsOfMeasurements(campaign);
  const unplaced = (row: MeasurementRow, column: string, found: string, expected: string, fix: string) => {
    complain(row, 'measurement-not-placed', column, found, expected, fix, 'warning');
    return { where: { ...NOWHERE, hole: row.hole }, parts: [] };
  };

  const beyondCore = (row: MeasurementRow, found: string, expected: string) =>
    complain(row, 'deeper-than-its-core', 'bottom', found, expected, BEYOND, 'warning');
  /** Depths in the ground are taken as they are: those that no core of the hole can have are said. */
  const inHole = (row: MeasurementRow, { fold, pushes }: ModelledHole, { bottom_m }: CorePlace) => {
    const reached = Math.max(
      fold?.value.deepest_m ?? 0,
      ...[...pushes.values()].map(({ value }) => value.push.to_m),
    );
    if (reached > 0 && bottom_m > reached + BEYOND_HOLE_M)
      beyondCore(row, `${bottom_m} m`, `at most ${round(reached)} m, as deep as the hole`);
  };

  const inCores = placesInCores(run, campaign, holes, samples);

  const placed = (row: MeasurementRow): { where: Where; parts: readonly Traced[] } => {
    const known = row.sample === null ? undefined : samples.of.get(row.sample);
    if (known !== undefined) {
      const { hole, depth_m, thickness_m, elevation_m } = known.value.result;
      return { where: { hole, depth_m, thickness_m, elevation_m }, parts: [known] };
    }
    const hole = row.hole === null ? undefined : holes.get(row.hole);
    if (hole === undefined)
      return unplaced(row, 'sample', row.sample ?? row.hole ?? '', 'a sample, or a hole with a depth', LATER);
    const inCore = inCores.get(row);
    if (inCore === undefined) {
      const column = row.depth_basis === null ? 'depth_basis' : 'top';
      return unplaced(row, column, '', 'a basis and a top', LATER);
    }
    const { place, at } = inCore;
    if (!at.ok) return unplaced(row, at.column, at.found, at.expected, at.fix);
    const { depth: depth_m, thickness_m, doubt } = at;
    if (doubt !== null) beyondCore(row, doubt.found, doubt.expected);
    else if (place.basis === 'in_situ') inHole(row, hole, place);
    const ground = hole.ground?.value ?? null;
    const elevation_m =
      ground === null ? null : elevationOf(depth_m, { value: ground.value_m, sigma: elevationSigma(ground) });
    const parts = partsOf(hole, place);
    return {
      where: { hole: row.hole, depth_m, thickness_m, elevation_m },
      parts: hole.ground === null ? parts : [...parts, hole.ground],
    };
  };

  const made = campaign.rows.measurements.map((row): PlacedMeasurement => {
    const { where, parts } = placed(row);
    const { row_id, property, value, sigma, unit, qualifier, method, batch, sample } = row;
    const result = { row_id, property, value, sigma, unit, qualifier, method, batch, sample, ...where };
    const typed = run.row('measurements', row, `${property}${sample === null ? '' : ` of ${sample}`}`);
    const known = run.part(traceId.measurement(row_id), result, tellMeasurement(result), [typed, ...parts]);
    return { row, result, known };
  });
  return { made: made.map(({ result }) => result), placed: made, problems };
}

const BEYOND = 'Correct the depth, or what it is counted in. It is drawn where it says until then.';
/** A hole is as deep as its last reading says within this, m (common practice, no source). */
const BEYOND_HOLE_M = 0.05;
const round = (m: number): number => Math.round(m * 100) / 100;

const LATER = 'State where it lay. Until then it is in the table of measurements and in no drawing.';

/** Rows that state a place in a core, and where that is. */
function placesInCores(
  run: Runner,
  campaign: Campaign,
  holes: ReadonlyMap<string, ModelledHole>,
  samples: Samples,
): Map<MeasurementRow, { place: CorePlace; at: Middle | NotPlaced }> {
  const found = new Map<MeasurementRow, { place: CorePlace; at: Middle | NotPlaced }>();
  const stated = campaign.rows.measurements.flatMap((row) => {
    const top = row.top_m ?? row.bottom_m;
    const isAtSample = row.sample !== null && samples.of.has(row.sample);
    if (isAtSample || row.hole === null || top === null || row.depth_basis === null) return [];
    return [{ row, place: measuredPlace(row.depth_basis, row.run, top, row.bottom_m ?? top) }];
  });
  for (const [label, inHole] of Map.groupBy(stated, ({ row }) => row.hole!)) {
    const hole = holes.get(label);
    if (hole === undefined) continue;
    const places = run.plain(inHole.map(({ place }) => place));
    const at = run.untold(placesOfMeasurements, { core: hole.core, places }).value;
    for (const [i, { row, place }] of inHole.entries()) found.set(row, { place, at: at[i]! });
  }
  return found;
}
