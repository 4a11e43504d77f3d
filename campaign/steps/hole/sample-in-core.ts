/** A sample of a core: its middle in the ground, from where it lies in the core, and its elevation. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type Estimate, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { mean, quantiles, standardDeviation } from '@stillstand/science/base';
import { elevationOf } from '@stillstand/science/strata';
import { elevationSigma } from '../heights/elevation.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellElevation, tellSampleDepth } from '../words/samples.ts';
import { coreProblem, doubtful, measuredPlace, placedIn } from './core-place.ts';
import type { ModelledHole } from './holes.ts';
import { namedOf, nowhere, type PlacedSample } from './placed-sample.ts';
import type { Loading } from './shared-depth-errors.ts';

/** Middle of a sample in the ground. */
interface Middle {
  depth: Estimate;
  draws: Float64Array;
  thickness_m: number;
}

export interface Placing {
  row: Row<'samples'>;
  hole: ModelledHole;
  known: Known<Middle>;
}

const middleOfSample = step('middle of a sample', middleOf);

/** An end of a length of core. */
interface Ends {
  value: number;
  draws: Float64Array;
}

export function middleOf({ top, bottom }: { top: Ends; bottom: Ends }): Middle {
  const draws = top.draws.map((d, i) => (d + bottom.draws[i]!) / 2);
  return { depth: drawn(draws), draws, thickness_m: bottom.value - top.value };
}

export function placeInHole(
  run: Runner,
  campaign: Campaign,
  row: Row<'samples'>,
  hole: ModelledHole,
  problems: Problem[],
): Placing | null {
  const top = row.top_m ?? row.bottom_m;
  if (top === null || row.depth_basis === null) {
    const column = row.depth_basis === null ? 'depth_basis' : 'top';
    problems.push(
      coreProblem(campaign, 'samples', row, { column, found: '', expected: 'a basis and a top' }),
    );
    return null;
  }
  const place = measuredPlace(row.depth_basis, row.run, top, row.bottom_m ?? top);
  const id = traceId.sample(row.sample).depth;
  const rowKnown = run.row('samples', row, `sample ${row.sample}`);
  const { placed, parts } = placedIn(run, hole, place);
  const { value } = placed;
  if (!value.ok) {
    problems.push(coreProblem(campaign, 'samples', row, value));
    return null;
  }
  const { top: from, bottom: to, doubt } = value;
  if (doubt !== null) problems.push(doubtful(campaign, 'samples', row, doubt));
  const known = run.do(
    middleOfSample,
    id,
    {
      top: run.plain({ value: from.value, draws: from.draws }),
      bottom: run.plain({ value: to.value, draws: to.draws }),
    },
    (v) => tellSampleDepth(row.sample, value, v.depth),
    () => [rowKnown, ...parts],
  );
  return { row, hole, known };
}

export function inCore(run: Runner, { row, hole, known }: Placing, loading: Loading): Known<PlacedSample> {
  const { depth, draws, thickness_m } = known.value;
  const { site } = hole.row;
  const ground = hole.ground?.value ?? null;
  const elevation =
    ground === null ? null : elevationOf(depth, { value: ground.value_m, sigma: elevationSigma(ground) });
  const placed: PlacedSample = {
    sample: row.sample,
    hole: row.hole,
    site,
    elevation_m: elevation?.value ?? null,
    height: ground,
    depth_m: depth.value,
    thickness_m,
    depth_draws: draws,
    depth_sigma_m: loading,
    result: { ...namedOf(row), site, depth_m: depth, thickness_m, elevation_m: elevation },
  };
  return run.part(
    traceId.sample(row.sample).elevation,
    placed,
    tellElevation(row.sample, 'ground − in-situ depth', elevation),
    hole.ground === null ? [known] : [hole.ground, known],
  );
}

/** A sample whose place in the core is not known. */
export const unplaced = (run: Runner, row: Row<'samples'>, hole: ModelledHole): Known<PlacedSample> =>
  run.part(
    traceId.sample(row.sample).elevation,
    nowhere(row, hole.row.site, null, null),
    tellElevation(row.sample, 'no depth', null),
    [run.row('samples', row, `sample ${row.sample}`)],
  );

function drawn(draws: Float64Array): Estimate {
  const [lower95, upper95] = quantiles(draws, [0.025, 0.975]) as [number, number];
  return { value: mean(draws), sigma: standardDeviation(draws), lower95, upper95 };
}
