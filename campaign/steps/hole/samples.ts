/** Samples on in-situ depth and elevation, and what the samples of a hole share of their depth errors. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type Estimate, type SampleResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { mean, quantiles, square, standardDeviation } from '@stillstand/science/base';
import { elevationOf } from '@stillstand/science/strata';
import { type Elevation, elevationSigma } from '../heights/elevation.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellElevation, tellSampleDepth, tellSurfaceElevation } from '../words/samples.ts';
import { coreProblem, doubtful, measuredPlace, placedIn } from './core-place.ts';
import { elevationEstimate } from './hole-result.ts';
import type { ModelledHole } from './holes.ts';

/** A sample as the points need it: plain data. */
export interface PlacedSample {
  sample: string;
  /** Null for a sample of the surface, not of a hole. */
  hole: string | null;
  site: string | null;
  /** Middle, on the campaign datum. */
  elevation_m: number | null;
  /** The reference it is measured from, or the sample's own height where it was levelled itself. */
  height: Elevation | null;
  depth_m: number | null;
  thickness_m: number | null;
  /** Joint draws of its middle: draw k of all samples of a hole is one state of it. Null without a depth. */
  depth_draws: Float64Array | null;
  /** 1 sigma of the depth model, parted into the sample's own and what the hole shares. */
  depth_sigma_m: Loading | null;
  /** What depends on other rows, its dates and its point, is added where results are put together. */
  result: Omit<SampleResult, 'dated' | 'components'>;
}

export interface Samples {
  of: Map<string, Known<PlacedSample>>;
  problems: Problem[];
}

interface Loading {
  own: number;
  shared: number;
}

/** Middle of a sample in the ground. */
interface Middle {
  depth: Estimate;
  draws: Float64Array;
  thickness_m: number;
}

interface Placing {
  row: Row<'samples'>;
  hole: ModelledHole;
  known: Known<Middle>;
}

const middleOfSample = step('middle of a sample', ({ top, bottom }: { top: Ends; bottom: Ends }): Middle => {
  const draws = top.draws.map((d, i) => (d + bottom.draws[i]!) / 2);
  return { depth: drawn(draws), draws, thickness_m: bottom.value - top.value };
});
interface Ends {
  value: number;
  draws: Float64Array;
}

const depthErrors = step('shared depth errors', ({ draws }: { draws: readonly Float64Array[] }) =>
  sharedLoadings(draws),
);

const namedOf = ({ row_id, sample, hole, material }: Row<'samples'>) => ({
  row_id,
  sample,
  hole,
  material,
});

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

function placeInHole(
  run: Runner,
  campaign: Campaign,
  row: Row<'samples'>,
  hole: ModelledHole,
  problems: Problem[],
): Placing | null {
  const top = row.top_m ?? row.bottom_m;
  if (top === null || row.depth_basis === null) {
    const column = row.depth_basis === null ? 'basis' : 'top';
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

/**
 * How much of each sample's depth error the hole shares: the covariance of its draws with the mean of all samples'
 * draws over that mean's sd; the rest is its own. Depth draws of one hole belong together, so this is one factor that
 * moves them together (a single factor; see docs/methods/points.md).
 */
export function sharedLoadings(draws: readonly Float64Array[]): Loading[] {
  const sds = draws.map((d) => standardDeviation(d));
  if (draws.length < 2) return sds.map((own) => ({ own, shared: 0 }));
  const n = draws[0]!.length;
  const common = new Float64Array(n);
  for (const d of draws) for (let i = 0; i < n; i++) common[i] = common[i]! + d[i]! / draws.length;
  const commonMean = mean(common);
  const commonSd = standardDeviation(common);
  return draws.map((d, k) => {
    if (!(commonSd > 0)) return { own: sds[k]!, shared: 0 };
    const ownMean = mean(d);
    let covariance = 0;
    for (let i = 0; i < n; i++) covariance += ((d[i]! - ownMean) * (common[i]! - commonMean)) / (n - 1);
    const shared = Math.min(sds[k]!, Math.max(0, covariance / commonSd));
    return { own: Math.sqrt(Math.max(0, square(sds[k]!) - square(shared))), shared };
  });
}

function inCore(run: Runner, { row, hole, known }: Placing, loading: Loading): Known<PlacedSample> {
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

function levelledSample(
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

const unplaced = (run: Runner, row: Row<'samples'>, hole: ModelledHole): Known<PlacedSample> =>
  run.part(
    traceId.sample(row.sample).elevation,
    nowhere(row, hole.row.site, null, null),
    tellElevation(row.sample, 'no depth', null),
    [run.row('samples', row, `sample ${row.sample}`)],
  );

/** A sample without a depth; with an elevation where it was levelled itself. */
function nowhere(
  row: Row<'samples'>,
  site: string | null,
  height: Elevation | null,
  thickness_m: number | null,
): PlacedSample {
  return {
    sample: row.sample,
    hole: row.hole,
    site,
    elevation_m: height?.value_m ?? null,
    height,
    depth_m: null,
    thickness_m,
    depth_draws: null,
    depth_sigma_m: null,
    result: {
      ...namedOf(row),
      site,
      depth_m: null,
      thickness_m,
      elevation_m: height === null ? null : elevationEstimate(height),
    },
  };
}

function drawn(draws: Float64Array): Estimate {
  const [lower95, upper95] = quantiles(draws, [0.025, 0.975]) as [number, number];
  return { value: mean(draws), sigma: standardDeviation(draws), lower95, upper95 };
}
