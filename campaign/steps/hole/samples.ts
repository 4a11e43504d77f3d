/** Samples on in-situ depth and elevation: those of cores, hole by hole, and those that were levelled themselves. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import type { ModelledHole } from './holes.ts';
import { levelledSample } from './levelled-sample.ts';
import type { PlacedSample } from './placed-sample.ts';
import { inCore, type Placing, placeInHole, unplaced } from './sample-in-core.ts';
import { depthErrors } from './shared-depth-errors.ts';

export interface Samples {
  of: Map<string, Known<PlacedSample>>;
  problems: Problem[];
}

export function placeSamples(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  holes: ReadonlyMap<string, ModelledHole>,
): Samples {
  const problems: Problem[] = [];
  const of = new Map<string, Known<PlacedSample>>();
  const placings: Placing[] = [];
  for (const row of campaign.rows.samples) {
    if (row.depth_basis === 'elevation' || row.hole === null) {
      of.set(row.sample, levelledSample(run, row, heights, problems));
      continue;
    }
    const hole = holes.get(row.hole);
    if (hole === undefined) continue;
    const placing = placeInHole(run, campaign, row, hole, problems);
    if (placing === null) of.set(row.sample, unplaced(run, row, hole));
    else placings.push(placing);
  }
  for (const inHole of Map.groupBy(placings, (p) => p.row.hole!).values()) {
    const draws = inHole.map(({ known }) => run.plain(known.value.draws));
    const loadings = run.untold(depthErrors, { draws }).value;
    inHole.forEach((p, i) => {
      of.set(p.row.sample, inCore(run, p, loadings[i]!));
    });
  }
  return { of, problems };
}
