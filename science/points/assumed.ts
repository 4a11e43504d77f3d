/**
 * The parts of a height error every sample has, where nobody declared them. Each has its source; a declared part of
 * the same name takes its place.
 */
import { cos } from '@stillstand/science/base';
import type { HeightError } from './error.ts';

/** How the sample was taken, for the sampling error of Hibbert et al. 2018, table 3. */
export type SamplingMethod = 'string' | 'tube' | 'chamber' | 'gouge' | 'hand' | 'exposure';

export interface AssumedCircumstances {
  /** Names of parts declared for this point: these are left out here. */
  declared: ReadonlySet<string>;
  /** Null for a surface sample. */
  hole: string | null;
  method: SamplingMethod | null;
  /** Thickness of the sample, metres; null where unknown. */
  thickness_m: number | null;
  /** In-situ depth below ground of the middle of the sample, metres; null for a surface sample. */
  depth_m: number | null;
  /** 1 sigma of that depth: the sample's own, and what the whole hole shares. Null where not modelled. */
  depth_sigma_m: { own: number; shared: number } | null;
  /** Lean of the hole off the vertical; null where not measured. */
  inclination_deg: number | null;
  /** 2 sigma of an unmeasured inclination, per cent of depth; 1 if not given. */
  inclination_percent?: number;
  /** Height of the hole's reference, or of a surface sample itself. */
  reference: {
    /** 1 sigma of the levelling alone, or of the height as stated; null where nobody stated it. */
    levelling_sigma_m: number | null;
    /** What that error is shared with, such as a bench mark; null: the hole only. */
    group: string | null;
    /** Bench marks the height hangs on, each with its part of the error, 1 sigma. */
    benchmarks: readonly { benchmark: string; part?: 'ellipsoid' | 'geoid'; sigma_m: number }[];
  };
  /** Steps taken between datums, 1 sigma each. */
  datum_shifts: readonly { name: string; sigma_m: number }[];
}

const HIBBERT = 'Hibbert et al. 2018, doi 10.1038/sdata.2018.88, table 3';

/** 2 sigma, metres. Table 3 of Hibbert et al. 2018. The valve sampler in a driven string counts as a vibrated core. */
const SAMPLING_2SIGMA_M: Record<SamplingMethod, number | null> = {
  string: 0.15,
  tube: 0.15,
  chamber: 0.01,
  gouge: 0.05,
  hand: 0.05,
  exposure: null,
};

/** The two heights of a bench mark from satellites. */
const PART = { ellipsoid: 'its height above the ellipsoid', geoid: 'its geoid height' } as const;

/** 2 sigma, metres: levelling by an unknown method, Hibbert et al. 2018 table 3. */
const UNKNOWN_LEVELLING_2SIGMA_M = 0.5;

/**
 * 2 sigma of a hole off the vertical, per cent of depth (Törnqvist et al. 2008; Engelhart & Horton 2012; from memory;
 * 2 % also circulates).
 */
const LEAN_PERCENT = 1;

/** Those of the depth model. */
const DEPTH = { own: 'depth_sample', shared: 'depth_hole_model' } as const;
export const DEPTH_ERRORS: ReadonlySet<string> = new Set(Object.values(DEPTH));

/** The undeclared parts, 1 sigma in metres. `indicative_range` and `tide_levels` are added by the point itself. */
export function assumedErrors(of: AssumedCircumstances): HeightError[] {
  const errors: HeightError[] = [];
  const inHole = (prefix: string) => (of.hole === null ? null : `${prefix}:${of.hole}`);
  const add = (
    component: string,
    sigma_m: number,
    source: string,
    shared_group: string | null = null,
    shape: HeightError['shape'] = 'normal',
  ) => {
    if (of.declared.has(component) || !(sigma_m > 0)) return;
    errors.push({ component, sigma_m, shape, shared_group, source });
  };

  if (of.thickness_m !== null) {
    add(
      'sample_thickness',
      of.thickness_m / 2 / Math.sqrt(3),
      'half the thickness of the sample (Shennan 1986; from memory)',
      null,
      'uniform',
    );
  }
  const { reference } = of;
  add(
    'levelling',
    reference.levelling_sigma_m ?? UNKNOWN_LEVELLING_2SIGMA_M / 2,
    reference.levelling_sigma_m === null
      ? `assumed: levelling by an unknown method, 0.5 m at 2 sigma (${HIBBERT})`
      : 'stated with the height',
    reference.group === null ? inHole('level') : `height:${reference.group}`,
  );
  const isOne = new Set(reference.benchmarks.map(({ benchmark }) => benchmark)).size === 1;
  for (const { benchmark, part, sigma_m } of reference.benchmarks) {
    const whole = isOne ? 'benchmark' : `benchmark ${benchmark}`;
    const source = `stated with benchmark ${benchmark}`;
    if (part === undefined) add(whole, sigma_m, source, `height:${benchmark}`);
    // Who declares the error of the benchmark has declared that of its parts.
    else if (!of.declared.has(whole))
      add(`${whole} ${part}`, sigma_m, `${source}: ${PART[part]}`, `height:${benchmark} ${part}`);
  }
  for (const shift of of.datum_shifts) {
    add(
      of.datum_shifts.length === 1 ? 'datum_shift' : `datum_shift ${shift.name}`,
      shift.sigma_m,
      'stated with the datum shift',
      `datum:${shift.name}`,
    );
  }
  if (of.depth_sigma_m !== null) {
    add(DEPTH.own, of.depth_sigma_m.own, 'placement of the piece in depth');
    add(DEPTH.shared, of.depth_sigma_m.shared, 'depth model of the hole', inHole('depth'));
  }
  if (of.depth_m !== null && of.depth_m > 0) {
    const percent = of.inclination_percent ?? LEAN_PERCENT;
    if (of.inclination_deg === null) {
      add(
        'inclination',
        (percent / 100 / 2) * of.depth_m,
        `assumed: ${percent} % of depth at 2 sigma (Törnqvist et al. 2008; Engelhart & Horton 2012; from memory)`,
        inHole('inclination'),
      );
    } else {
      add(
        'inclination',
        of.depth_m * (1 - cos((of.inclination_deg * Math.PI) / 180)),
        `measured inclination of ${of.inclination_deg}°: depth along the hole less depth below ground, z(1 − cos a), left uncorrected`,
        inHole('inclination'),
      );
    }
  }
  const sampling = of.method === null ? null : SAMPLING_2SIGMA_M[of.method];
  if (sampling !== null) {
    add('sampling', sampling / 2, `assumed: sampling by ${of.method}, ${sampling} m at 2 sigma (${HIBBERT})`);
  }
  return errors;
}
