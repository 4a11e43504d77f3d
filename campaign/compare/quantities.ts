/** The numbers of a computation that a revision is judged by, one beside the other, and what each is made from. */
import {
  type Estimate,
  nameOfCurve,
  type Results,
  type SeaResult,
  traceId,
} from '@stillstand/campaign/results';
import { mcseMean } from '@stillstand/science/base';

export type Kind = 'rate' | 'level' | 'point' | 'age of a point' | 'date' | 'hole' | 'sample';

export type Unit = 'mm/yr' | 'm' | 'cal BP' | 'ratio';

export interface Quantity {
  kind: Kind;
  /** By which it is found in the other computation: `id` in the trace, and what it is of that. */
  key: string;
  id: string;
  name: string;
  /** Of the curve of the report; true for all that belongs to no curve. */
  isHeadline: boolean;
  unit: Unit;
  /** Whether its sign is always shown: elevations, sea level, rates. */
  isSigned: boolean;
  value: number;
  /** 1 sigma; null where it has none. */
  sigma: number | null;
  /** Monte-Carlo standard error of the value; null where it is not made of draws, or none is known. */
  mcse: number | null;
  /** "rejected", "not converged": with the number, since it changes what the number is good for. */
  status: string | null;
  /** Nodes of the trace whose rows are under it. */
  below: readonly string[];
}

/** All of them, in the order of the results. A number that could not be computed is left out. */
export function quantitiesOf(results: Results): Quantity[] {
  const all = [
    ...results.curves.flatMap((sea) => [...ratesOfCurve(sea), ...levelsOfCurve(sea)]),
    ...results.points.flatMap(ofPoint),
    ...results.dates.map(ofDate),
    ...results.holes.flatMap(ofHole),
    ...results.samples.flatMap(ofSample),
  ];
  // Labels are unique in a campaign that has no problems; of others the first counts.
  const known = new Map<string, Quantity>();
  for (const each of all) if (Number.isFinite(each.value) && !known.has(each.key)) known.set(each.key, each);
  return [...known.values()];
}

const PLAIN = { isHeadline: true, isSigned: false, mcse: null, status: null } as const;

type Made = Omit<Quantity, 'key' | keyof typeof PLAIN> & Partial<Quantity>;

const quantity = (what: string, made: Made): Quantity => ({ ...PLAIN, key: `${made.id} ${what}`, ...made });

/** Of every number of a curve: how it is named, and the rows it is made of. */
function commonOf({ id, role, gauges }: SeaResult, curve: Curve) {
  const named = nameOfCurve(id);
  const at = (of: ReturnType<typeof traceId.level>): string => traceId.ofCurve(named, of);
  const of = named === null ? '' : `, curve of ${id}`;
  // The curve is made of all its points: their rows are known without computing it again.
  const below = [
    at(traceId.settings('curve')),
    ...curve.points.map((point) => traceId.point(point.id).rsl),
    ...gauges.map(({ gauge }) => traceId.gaugeMeans(gauge)),
  ];
  const common = {
    isHeadline: role === 'headline',
    isSigned: true,
    status: curve.diagnostics.converged ? null : 'not converged',
    below,
  };
  return { at, of, common };
}

type Curve = NonNullable<SeaResult['curve']>;

/** Mean rates over its intervals. */
export function ratesOfCurve(sea: SeaResult): Quantity[] {
  const { curve } = sea;
  if (curve === null) return [];
  const { at, of, common } = commonOf(sea, curve);
  return curve.intervals.map((interval) => {
    const { mean, sd, mcse } = interval.rate_mm_yr;
    return quantity('rate', {
      ...common,
      kind: 'rate',
      id: at(traceId.interval(interval)),
      name: `rate from ${interval.older_cal_bp} to ${interval.younger_cal_bp} cal BP${of}`,
      unit: 'mm/yr',
      value: mean,
      sigma: sd,
      mcse,
    });
  });
}

function levelsOfCurve(sea: SeaResult): Quantity[] {
  const { curve } = sea;
  if (curve === null) return [];
  const { at, of, common } = commonOf(sea, curve);
  const errors = errorsOfLevels(curve);
  return [...curve.ages_cal_bp].map((age, i) =>
    quantity('level', {
      ...common,
      kind: 'level',
      id: at(traceId.level(age)),
      name: `RSL at ${age} cal BP${of}`,
      unit: 'm',
      value: curve.level_m.mean[i]!,
      sigma: curve.level_m.sd[i]!,
      mcse: errors[i]!,
    }),
  );
}

/** Of the mean level at each age, from the draws, chain by chain; m. */
function errorsOfLevels({ ages_cal_bp, draws, diagnostics }: Curve): (number | null)[] {
  const ages = ages_cal_bp.length;
  const each = draws.level_m.length / ages / diagnostics.chains;
  if (!Number.isInteger(each) || each === 0) return Array.from(ages_cal_bp, () => null);
  return Array.from(ages_cal_bp, (_, age) => {
    const chains = Array.from({ length: diagnostics.chains }, (__, chain) =>
      Float64Array.from({ length: each }, (___, draw) => draws.level_m[(chain * each + draw) * ages + age]!),
    );
    const error = mcseMean(chains);
    return Number.isFinite(error) ? error : null;
  });
}

function ofPoint({
  point,
  rsl_m,
  rsl_sigma_m,
  age,
  status,
  lab_code,
}: Results['points'][number]): Quantity[] {
  const id = traceId.point(point).rsl;
  const stated = status === 'accepted' ? null : status;
  return [
    quantity('rsl', {
      kind: 'point',
      id,
      name: `RSL of point ${point}`,
      unit: 'm',
      isSigned: true,
      value: rsl_m,
      sigma: rsl_sigma_m,
      status: stated,
      below: [id],
    }),
    quantity('age', {
      kind: 'age of a point',
      id,
      name: `age of point ${point}`,
      unit: 'cal BP',
      value: age.median_cal_bp,
      // A quarter of the 95 % range: 1 sigma of a normal law to 2 %.
      sigma: (age.older95_cal_bp - age.younger95_cal_bp) / 4,
      status: stated,
      below: lab_code === null ? [id] : [id, traceId.date(lab_code)],
    }),
  ];
}

function ofDate({ lab_code, median_cal_bp, sd_yr, status }: Results['dates'][number]): Quantity {
  const id = traceId.date(lab_code);
  return quantity('date', {
    kind: 'date',
    id,
    name: `date ${lab_code}`,
    unit: 'cal BP',
    value: median_cal_bp,
    sigma: sd_yr,
    status: status === 'accepted' ? null : status,
    below: [id],
  });
}

function ofHole(hole: Results['holes'][number]): Quantity[] {
  const of = traceId.hole(hole.hole);
  const name = (what: string): string => `${what} of hole ${hole.hole}`;
  const below = [of.rig, of.depth, traceId.row('holes', hole.row_id)];
  const plain = { kind: 'hole', id: of.rig, sigma: null, below } as const;
  const elevation = (what: string, id: string, estimate: Estimate | null): Quantity[] =>
    ofEstimate('hole', what, id, name(what), estimate, [id]);
  return [
    ...(hole.penetration_m === null
      ? []
      : [quantity('depth', { ...plain, name: name('depth'), unit: 'm', value: hole.penetration_m })]),
    ...(hole.recovery === null
      ? []
      : [quantity('recovery', { ...plain, name: name('recovery'), unit: 'ratio', value: hole.recovery })]),
    ...elevation('reference elevation', of.reference, hole.reference_elevation_m),
    ...elevation('ground elevation', of.ground, hole.ground_elevation_m),
  ];
}

function ofSample({ sample, depth_m, elevation_m }: Results['samples'][number]): Quantity[] {
  const of = traceId.sample(sample);
  return [
    ...ofEstimate('sample', 'depth', of.depth, `depth of sample ${sample}`, depth_m, [of.depth]),
    ...ofEstimate('sample', 'elevation', of.elevation, `elevation of sample ${sample}`, elevation_m, [
      of.elevation,
    ]),
  ];
}

const ofEstimate = (
  kind: Kind,
  what: string,
  id: string,
  name: string,
  estimate: Estimate | null,
  below: readonly string[],
): Quantity[] =>
  estimate === null
    ? []
    : [
        quantity(what, {
          ...{ kind, id, name, below, unit: 'm', isSigned: what !== 'depth' },
          value: estimate.value,
          sigma: estimate.sigma,
        }),
      ];
