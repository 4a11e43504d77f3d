/** Grain size of samples: their classes found among the measurements, put together and described. */
import { type GrainSizeResult, traceId } from '@stillstand/campaign/results';
import {
  type GrainClass,
  type GrainFault,
  grainClasses,
  grainStatistics,
  millimetresFromPhi,
  type ScaleName,
  SIZE_SCALES,
  type SizeRange,
  sizeRange,
  textureName,
} from '@stillstand/science/laboratory';
import type { Complain } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import { tellGrainSize } from '../words/laboratory.ts';
import {
  analysisOf,
  GRAMS,
  inUnit,
  type MeasurementRow,
  PERCENT,
  type Placed,
  unitOf,
} from './at-one-place.ts';

/** What the classes of one analysis give: all of its result but where it lies. */
type Described = Pick<
  GrainSizeResult,
  Exclude<keyof GrainSizeResult, 'row_id' | 'hole' | 'sample' | 'batch' | 'depth_m' | 'thickness_m'>
>;

interface Analysis {
  classes: readonly GrainClass[];
  is_mass: boolean;
  scale: ScaleName;
}

const grainSizeOfClasses = step(
  'grain size',
  ({ analysis: { classes, is_mass, scale } }: { analysis: Analysis }) => {
    const made = grainClasses(classes, is_mass);
    return { described: described(made, scale), faults: made.faults };
  },
);

function described(made: ReturnType<typeof grainClasses>, scale: ScaleName): Described {
  const found = grainStatistics(made, SIZE_SCALES[scale]);
  const [p5, p16, p25, median, p75, p84, p95] = found?.percentiles_phi ?? [];
  const graphic = found?.folk_ward ?? null;
  const moments = found?.moments ?? null;
  return {
    scale,
    sum_percent: made.sum_percent,
    classes: made.classes.map(({ id, ...each }) => ({
      row_id: id,
      name: each.name,
      coarser_phi: each.coarser_phi,
      finer_phi: each.finer_phi,
      percent: each.percent,
      percent_sigma: each.sigma,
    })),
    gravel_percent: found?.parts.gravel ?? null,
    sand_percent: found?.parts.sand ?? null,
    silt_percent: found?.parts.silt ?? null,
    clay_percent: found?.parts.clay ?? null,
    mud_percent: found?.parts.mud ?? null,
    name: found === null ? null : textureName(found.parts),
    median_phi: median ?? null,
    median_sigma_phi: found?.sigma.median_phi ?? null,
    p5_phi: p5 ?? null,
    p16_phi: p16 ?? null,
    p25_phi: p25 ?? null,
    p75_phi: p75 ?? null,
    p84_phi: p84 ?? null,
    p95_phi: p95 ?? null,
    folk_ward:
      graphic === null
        ? null
        : {
            mean_phi: graphic.mean_phi,
            mean_sigma_phi: found!.sigma.mean_phi,
            mean_mm: millimetresFromPhi(graphic.mean_phi),
            sorting_phi: graphic.sorting_phi,
            sorting_sigma_phi: found!.sigma.sorting_phi,
            skewness: graphic.skewness,
            kurtosis: graphic.kurtosis,
            sorting: graphic.sorting_class,
            skew: graphic.skewness_class,
            peak: graphic.kurtosis_class,
          },
    moments:
      moments === null
        ? null
        : {
            mean_phi: moments.mean_phi,
            sd_phi: moments.sd_phi,
            skewness: moments.skewness,
            kurtosis: moments.kurtosis,
            ends: moments.is_closed ? 'assumed' : 'measured',
          },
    open_coarse_percent: found?.open_coarse_percent ?? null,
    open_fine_percent: found?.open_fine_percent ?? null,
  };
}

/** A measurement that is a class, in per cent or in grams. */
interface ClassRow {
  placed: Placed;
  range: SizeRange;
  amount: number;
  sigma: number | null;
  is_mass: boolean;
}

/** `rows`: the measurements that were taken into an analysis, and are no quantity of their own. */
export function grainSizes(
  run: Runner,
  measurements: readonly Placed[],
  scale: ScaleName,
  complain: Complain<MeasurementRow>,
): { made: GrainSizeResult[]; rows: ReadonlySet<string> } {
  const classes = measurements.flatMap((placed) => classOf(placed, scale) ?? []);
  const made: GrainSizeResult[] = [];
  const rows = new Set<string>();
  for (const group of Map.groupBy(classes, ({ placed }) => analysisOf(placed)).values()) {
    // One class alone, such as what stays on a sieve, is a quantity along the hole and no analysis.
    if (new Set(group.map(({ placed }) => placed.row.property)).size < 2) continue;
    const is_mass = group[0]!.is_mass;
    const { row: first, result } = group[0]!.placed;
    const alike = group.filter((each) => each.is_mass === is_mass);
    for (const { placed } of group) rows.add(placed.row.row_id);
    for (const { placed } of group.filter((each) => each.is_mass !== is_mass))
      complain(
        placed.row,
        'grain-size-units',
        'unit',
        placed.row.unit ?? '',
        `the unit of the other classes (${first.unit ?? '%'})`,
        'Give all classes of an analysis as masses or all as parts. This one is left out until then.',
      );
    const given = alike.map(
      ({ placed, range, amount, sigma }): GrainClass => ({
        id: placed.row.row_id,
        name: placed.row.property,
        ...range,
        amount,
        sigma,
        is_limit: placed.row.qualifier === 'less_than',
      }),
    );
    const known = run.do(
      grainSizeOfClasses,
      traceId.grainSize(first.row_id),
      { analysis: run.plain<Analysis>({ classes: given, is_mass, scale }) },
      ({ described }) => tellGrainSize(result, described),
      () => alike.map(({ placed }) => placed.known),
    );
    say(known.value.faults, alike, complain);
    const { hole, sample, batch, depth_m, thickness_m } = result;
    made.push({
      row_id: first.row_id,
      hole,
      sample,
      batch,
      depth_m,
      thickness_m,
      ...known.value.described,
    });
  }
  return { made, rows };
}

/** Null where the property is no class, or its unit is that of something else. */
function classOf(placed: Placed, scale: ScaleName): ClassRow | null {
  const { row } = placed;
  const range = sizeRange(row.property, scale);
  if (range === null || row.value === null || row.qualifier === 'not_determined') return null;
  if (row.unit === null) return { placed, range, amount: row.value, sigma: row.sigma, is_mass: false };
  const unit = unitOf(placed);
  const is_mass = unit?.kind === 'mass';
  if (unit === null || !(is_mass || unit.kind === 'part of mass' || unit.kind === 'part of volume'))
    return null;
  // Parts of volume, as light scattered by grains gives them, are taken as parts all the same.
  const to = is_mass ? GRAMS : unit.kind === 'part of mass' ? PERCENT : { ...PERCENT, kind: unit.kind };
  const { value, sigma } = inUnit(placed, unit, to);
  return { placed, range, amount: value!, sigma, is_mass };
}

function say(
  faults: readonly GrainFault[],
  group: readonly ClassRow[],
  complain: Complain<MeasurementRow>,
): void {
  for (const { code, severity, classes, found, expected, fix } of faults) {
    const about = group.find(({ placed }) => placed.row.row_id === classes[0])!.placed.row;
    complain(
      about,
      `grain-size-${code}`,
      code === 'gap' ? 'property' : 'value',
      found,
      expected,
      fix,
      severity,
    );
  }
}
