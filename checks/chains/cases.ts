/** Computations by chains for threads of any kind: small, and with every kind of height, age and shared error. Seed 5. */
import { exp, randomStream, sin, square, type Work } from '@stillstand/science/base';
import { sharingOf } from '@stillstand/science/clocks';
import {
  type CurvePoint,
  type CurveSettings,
  curveWithSensitivity,
  DEFAULT_CURVE_SETTINGS,
} from '@stillstand/science/curve';
import {
  type AgeDepthInput,
  ageDepthDefaults,
  ageDepthTogetherWork,
  ageDepthWork,
} from '@stillstand/science/dating';

/** A curve that runs evenly. */
const even = {
  name: 'even',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 8001 }, (_, year) => year),
  sigma_yr: new Float64Array(8001).fill(15),
};

/** Every kind of height and age, shared errors of both, two points that may be intercalated. */
const points: CurvePoint[] = Array.from({ length: 9 }, (_, i) => {
  const age = 600 + 700 * i;
  const kind = i % 5 === 3 ? 'terrestrial' : i === 7 ? 'marine' : 'index';
  return {
    id: `P${i + 1}`,
    kind,
    height_m: -0.0012 * age + (kind === 'terrestrial' ? 0.5 : kind === 'marine' ? -0.5 : 0.1 * sin(3 * i)),
    sigma_m: 0.15,
    half_range_m: kind === 'index' && i % 2 === 0 ? 0.3 : 0,
    lowering_m: kind === 'index' && i % 3 === 0 ? 0.2 : 0,
    shared: [{ group: 'bench mark', sigma_m: 0.1 }],
    age:
      i % 2 === 0
        ? { kind: 'normal', mean_cal_bp: age, sd_yr: 60 }
        : {
            kind: 'radiocarbon',
            c14_age: age + 40,
            error_yr: 35,
            curve: even,
            offset_yr: 0,
            offset_sd_yr: 40,
            delta_r_group: 'lagoon',
          },
  };
});

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [2000, 5000],
  intervals: [{ older_cal_bp: 5000, younger_cal_bp: 2000 }],
  seed: 5,
};

const hole: AgeDepthInput = {
  horizons: [1, 2.5, 4, 5].map((depth, i) => ({
    id: `D${i + 1}`,
    depth_m: Float64Array.from({ length: 50 }, (_, k) => depth + 0.02 * sin(7 * k + i)),
    age: {
      from_cal_bp: 900 * (i + 1),
      density: Float64Array.from({ length: 301 }, (_, y) => exp(-0.5 * square((y - 150) / 45))),
    },
  })),
  surface: { age_cal_bp: -60, sd_yr: 5 },
  breaks: [{ id: 'U3', depth_m: new Float64Array(50).fill(3.1) }],
  bottom_m: 5.5,
};

/** Two such holes; the second and the fourth date of each share an error. */
const together = ['H1', 'H2'].map((name) => {
  const settings = { ...ageDepthDefaults, sections: 8 };
  const shared = [1, 3].map((i) => ({
    id: `D${i + 1}`,
    age: {
      kind: 'normal' as const,
      mean_cal_bp: 900 * (i + 1) + 150,
      sd_yr: 45,
      systematic: { group: 'lamp', sd_yr: 30 },
    },
  }));
  return { hole: name, input: hole, settings, shared: sharingOf({ shared, settings }) };
});

/** By name; one of the points is intercalated, so that the rates are computed again without it. */
export const CASES: Readonly<Record<string, () => Work<unknown>>> = {
  curve: () => curveWithSensitivity(points, settings, new Set(['P5'])),
  'age against depth': () => ageDepthWork(hole, { ...ageDepthDefaults, sections: 8 }, randomStream(5)),
  'ages against depth together': () => ageDepthTogetherWork(together, randomStream(5)),
};

/** Every number in full: two results are written alike where every bit is the same. */
export const written = (result: unknown): string =>
  JSON.stringify(result, (_, value: unknown) => {
    if (ArrayBuffer.isView(value)) return Array.from(value as Float64Array);
    const isPlain = typeof value !== 'number' || (Number.isFinite(value) && !Object.is(value, -0));
    return isPlain ? value : Object.is(value, -0) ? '-0' : String(value);
  });
