/** Samples and units on in-situ depth and elevation, and what the samples of a hole share of their depth errors. */

import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Estimate, SampleResult, UnitResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { mean, quantileSorted, square, standardDeviation } from '@stillstand/science/base';
import { elevationOf } from '@stillstand/science/strata';
import { type Elevation, elevationSigma, type Heights } from './heights.ts';
import { estimate, type ModelledHole, normalEstimate } from './holes.ts';
import { type Basis, placeCore } from './place.ts';
import type { Known, Runner } from './runner.ts';

/** A sample as the points need it. */
export interface PlacedSample {
  row: Row<'samples'>;
  hole: ModelledHole | null;
  site: string | null;
  /** Middle, on the campaign datum. */
  elevation_m: number | null;
  /** The reference it hangs on, or the sample's own height where it was levelled itself. */
  height: Elevation | null;
  depth_m: number | null;
  thickness_m: number | null;
  /** Joint draws of its middle: draw k of all samples of a hole is one state of it. Null without a depth. */
  depth_draws: Float64Array | null;
  /** 1 sigma of the depth model, parted into the sample's own and what the hole shares. */
  depth_sigma_m: { own: number; shared: number } | null;
  /** What hangs on other rows, its dates and its point, is added where results are put together. */
  result: Omit<SampleResult, 'dated' | 'components'>;
}

export interface Samples {
  of: Map<string, Known<PlacedSample>>;
  problems: Problem[];
}

interface Placing {
  row: Row<'samples'>;
  hole: ModelledHole;
  depth: Estimate;
  draws: Float64Array;
  thickness_m: number;
  known: Known<unknown>;
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
    if (row.basis === 'elevation' || row.hole === null) {
      of.set(row.sample, surfaceSample(run, row, heights, problems));
      continue;
    }
    const hole = holes.get(row.hole);
    if (hole === undefined) continue;
    const top = row.top_m ?? row.bottom_m;
    if (top === null || row.basis === null) {
      problems.push(notPlaced(campaign, row, row.basis === null ? 'basis' : 'top', '', 'a basis and a top'));
      of.set(row.sample, unplaced(run, row, hole));
      continue;
    }
    const placed = placeCore(hole.core, row.basis as Basis, row.run, top, row.bottom_m ?? top);
    if (!placed.ok) {
      problems.push(notPlaced(campaign, row, placed.column, placed.found, placed.expected, placed.mend));
      of.set(row.sample, unplaced(run, row, hole));
      continue;
    }
    if (placed.doubt !== null) problems.push(doubtful(campaign, row, placed.doubt));
    const draws = placed.top.draws.map((d, i) => (d + placed.bottom.draws[i]!) / 2);
    const depth = drawn(draws);
    const id = `sample:${row.sample}/depth`;
    const known = run.step(
      'sample depth',
      id,
      [run.row('samples', row, `sample ${row.sample}`), ...placed.parts],
      () => null,
      () => ({
        id,
        label: `In-situ depth of ${row.sample}`,
        how: placed.how,
        value: depth.value,
        sigma: depth.sigma,
        unit: 'm',
      }),
    );
    placings.push({ row, hole, depth, draws, thickness_m: placed.bottom.value - placed.top.value, known });
  }
  for (const [, inHole] of Map.groupBy(placings, (p) => p.row.hole)) {
    const loadings = sharedLoadings(inHole.map((p) => p.draws));
    inHole.forEach((p, i) => {
      of.set(p.row.sample, coreSample(run, p, loadings[i]!));
    });
  }
  return { of, problems };
}

/**
 * How much of each sample's depth error the hole shares: the covariance of its draws with the mean of all samples'
 * draws over that mean's sd; the rest is its own. Depth draws of one hole belong together, so this is one factor that
 * moves them together (a single factor; see docs/methods/points.md).
 */
export function sharedLoadings(draws: readonly Float64Array[]): { own: number; shared: number }[] {
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

function coreSample(
  run: Runner,
  p: Placing,
  depth_sigma_m: { own: number; shared: number },
): Known<PlacedSample> {
  const { row, hole, depth } = p;
  const ground = hole.ground?.value ?? null;
  const elevation =
    ground === null ? null : elevationOf(depth, { value: ground.value_m, sigma: elevationSigma(ground) });
  const id = `sample:${row.sample}/elevation`;
  return run.step(
    'sample elevation',
    id,
    hole.ground === null ? [p.known] : [hole.ground, p.known],
    () => ({
      row,
      hole,
      site: hole.row.site,
      elevation_m: elevation?.value ?? null,
      height: ground,
      depth_m: depth.value,
      thickness_m: p.thickness_m,
      depth_draws: p.draws,
      depth_sigma_m,
      result: {
        row_id: row.row_id,
        sample: row.sample,
        hole: row.hole,
        site: hole.row.site,
        material: row.material,
        depth_m: depth,
        thickness_m: p.thickness_m,
        elevation_m: elevation,
      },
    }),
    () => ({
      id,
      label: `Elevation of ${row.sample}`,
      how: 'ground − in-situ depth',
      value: elevation?.value ?? null,
      sigma: elevation?.sigma ?? null,
      unit: 'm',
    }),
  );
}

function surfaceSample(
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
        mend: 'State the elevation of the sample and its datum; without them it makes no point.',
      }),
    );
  }
  const elevation = row.elevation_m === null || to === null ? null : row.elevation_m + to.value.shift_m;
  const height: Elevation | null =
    elevation === null
      ? null
      : {
          value_m: elevation,
          levelling_sigma_m: row.elevation_sigma_m,
          group: `sample ${row.sample}`,
          benchmarks: [],
          shifts: to!.value.shifts,
        };
  const thickness = row.top_m === null || row.bottom_m === null ? null : Math.abs(row.bottom_m - row.top_m);
  const id = `sample:${row.sample}/elevation`;
  return run.step(
    'sample elevation',
    id,
    [run.row('samples', row, `sample ${row.sample}`), ...(to === null ? [] : [to])],
    () => ({
      row,
      hole: null,
      site: row.site,
      elevation_m: elevation,
      height,
      depth_m: null,
      thickness_m: thickness,
      depth_draws: null,
      depth_sigma_m: null,
      result: {
        row_id: row.row_id,
        sample: row.sample,
        hole: row.hole,
        site: row.site,
        material: row.material,
        depth_m: null,
        thickness_m: thickness,
        elevation_m: height === null ? null : normalEstimate(height.value_m, elevationSigma(height)),
      },
    }),
    () => ({
      id,
      label: `Elevation of ${row.sample}`,
      how: 'as levelled, on the campaign datum',
      value: elevation,
      sigma: height === null ? null : elevationSigma(height),
      unit: 'm',
    }),
  );
}

function unplaced(run: Runner, row: Row<'samples'>, hole: ModelledHole): Known<PlacedSample> {
  const id = `sample:${row.sample}/elevation`;
  const result: PlacedSample['result'] = {
    row_id: row.row_id,
    sample: row.sample,
    hole: row.hole,
    site: hole.row.site,
    material: row.material,
    depth_m: null,
    thickness_m: null,
    elevation_m: null,
  };
  return run.step(
    'sample elevation',
    id,
    [run.row('samples', row, `sample ${row.sample}`)],
    () => ({
      row,
      hole,
      site: hole.row.site,
      elevation_m: null,
      height: null,
      depth_m: null,
      thickness_m: null,
      depth_draws: null,
      depth_sigma_m: null,
      result,
    }),
    () => ({
      id,
      label: `Elevation of ${row.sample}`,
      how: 'not placed',
      value: null,
      sigma: null,
      unit: 'm',
    }),
  );
}

function notPlaced(
  campaign: Campaign,
  row: { row_id: string; sample?: string; unit?: string | null; hole: string | null },
  column: string,
  found: string,
  expected: string,
  mend = 'State where it lay.',
): Problem {
  return problem({
    severity: 'error',
    code: row.sample === undefined ? 'unit-not-placed' : 'sample-not-placed',
    table: row.sample === undefined ? 'units' : 'samples',
    row_id: row.row_id,
    line: campaign.lines.get(row.row_id) ?? null,
    label: row.sample ?? `${row.hole} ${row.unit ?? ''}`,
    column,
    found,
    expected,
    mend,
  });
}

/** It is placed as well as it can be, and said to be odd. */
function doubtful(
  campaign: Campaign,
  row: { row_id: string; sample?: string; unit?: string | null; hole: string | null },
  { found, expected }: { found: string; expected: string },
): Problem {
  const mend =
    'Correct the depth or the run it is counted in; until then it is placed at the end of the core.';
  return {
    ...notPlaced(campaign, row, 'bottom', found, expected, mend),
    severity: 'warning',
    code: 'deeper-than-its-core',
  };
}

/** The described units of one hole in the ground, from the top down. */
export function placeUnits(
  campaign: Campaign,
  hole: ModelledHole,
): { units: UnitResult[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const ground = hole.ground?.value ?? null;
  const placed = campaign.rows.units.flatMap((row): UnitResult[] => {
    if (row.hole !== hole.row.hole) return [];
    const place = placeCore(hole.core, row.basis, row.run, row.top_m, row.bottom_m);
    if (!place.ok) {
      problems.push(notPlaced(campaign, row, place.column, place.found, place.expected, place.mend));
      return [];
    }
    if (place.doubt !== null) problems.push(doubtful(campaign, row, place.doubt));
    const at = ground === null ? null : { value: ground.value_m, sigma: elevationSigma(ground) };
    const top = estimate(place.top);
    const bottom = estimate(place.bottom);
    return [
      {
        row_id: row.row_id,
        unit: row.unit ?? '',
        sediment: row.sediment,
        second: row.second,
        colour: row.colour,
        contact_below: row.contact_below,
        structures: listed(row.structures),
        fossils: listed(row.fossils),
        environment: row.environment,
        description: row.note,
        core_top_m: place.core_top_m,
        core_bottom_m: place.core_bottom_m,
        depth_top_m: top,
        depth_bottom_m: bottom,
        elevation_top_m: at === null ? null : elevationOf(top, at),
        elevation_bottom_m: at === null ? null : elevationOf(bottom, at),
      },
    ];
  });
  placed.sort((a, b) => a.depth_top_m.value - b.depth_top_m.value);
  return { units: joined(placed), problems };
}

/** A unit described over several runs has one row for each, under one label: together they are one layer. */
function joined(units: readonly UnitResult[]): UnitResult[] {
  const layers: UnitResult[] = [];
  for (const unit of units) {
    const above = layers.at(-1);
    if (
      above !== undefined &&
      unit.unit !== '' &&
      above.unit === unit.unit &&
      above.sediment === unit.sediment
    ) {
      layers[layers.length - 1] = {
        ...above,
        contact_below: unit.contact_below ?? above.contact_below,
        structures: [...new Set([...above.structures, ...unit.structures])],
        fossils: [...new Set([...above.fossils, ...unit.fossils])],
        description: above.description ?? unit.description,
        core_bottom_m: unit.core_bottom_m,
        depth_bottom_m: unit.depth_bottom_m,
        elevation_bottom_m: unit.elevation_bottom_m,
      };
    } else layers.push(unit);
  }
  return layers;
}

function listed(cell: string | null): string[] {
  return (cell ?? '')
    .split(';')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

function drawn(draws: Float64Array): Estimate {
  const sorted = draws.slice().sort();
  return {
    value: mean(draws),
    sigma: standardDeviation(draws),
    lower95: quantileSorted(sorted, 0.025),
    upper95: quantileSorted(sorted, 0.975),
  };
}
