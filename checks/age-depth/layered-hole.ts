/** Holes of layers of known sediment with event beds between them, whose truth is known, by formulas of their own. */
import { exp, type RandomStream } from '@stillstand/science/base';
import type { AgeDepthInput, DatedHorizon } from '@stillstand/science/dating';

export interface LayeredHole {
  input: Required<Pick<AgeDepthInput, 'horizons' | 'breaks' | 'beds' | 'layers' | 'surface' | 'bottom_m'>>;
  /** True age at a true depth. */
  age_cal_bp: (depth_m: number) => number;
}

/** Usual accumulation of the four sediments, mm/yr: peat, mud, sand and gravel as in a campaign, twice as far apart. */
export const USUAL_MM_YR = [1, 2.25, 9, 9] as const;
const STATES = 50;
const OUT_OF_PLACE = 0.05;

interface Stratum {
  usual_mm_yr: number | null;
  top: Float64Array;
  bottom: Float64Array;
  yr_per_m: number;
}

/**
 * Four to six layers of 0.5 to 1.5 m, two in three with a bed of 0.1 to 0.8 m on top; a hole differs from what is usual by
 * 0.8 in ln, a layer from its hole by 0.4. Six dates of 60 yr, one in twenty out of place by 1000 yr. Depths err by 4 cm
 * together and 2 cm apart; one state of the hole is the truth.
 */
export function layeredHole(stream: RandomStream): LayeredHole {
  const shift = Float64Array.from({ length: STATES }, () => 0.04 * stream.normal());
  const state = stream.integer(STATES);
  let before = new Float64Array(STATES);
  const drawn = (depth: number): Float64Array => {
    const above = before;
    before = shift.map((s, k) => Math.max(above[k]!, depth + s + 0.02 * stream.normal()));
    return before;
  };
  const ofHole = exp(0.8 * stream.normal());
  const strata: Stratum[] = [];
  let depth = 0;
  const add = (thickness: number, usual_mm_yr: number | null): void => {
    const top = before;
    depth += thickness;
    const yr_per_m = usual_mm_yr === null ? 0 : 1000 / (usual_mm_yr * ofHole * exp(0.4 * stream.normal()));
    strata.push({ usual_mm_yr, top, bottom: drawn(depth), yr_per_m });
  };
  const layers = 4 + stream.integer(3);
  for (let l = 0; l < layers; l++) {
    add(0.5 + stream.uniform(), USUAL_MM_YR[stream.integer(USUAL_MM_YR.length)]!);
    if (l < layers - 1 && stream.uniform() < 2 / 3) add(0.1 + 0.7 * stream.uniform(), null);
  }
  const age_cal_bp = (at: number): number =>
    strata.reduce(
      (age, { top, bottom, yr_per_m }) =>
        age + yr_per_m * Math.max(0, Math.min(at, bottom[state]!) - top[state]!),
      -60,
    );
  const bottom_m = before[state]!;
  const horizons = Array.from({ length: 6 }, (_, i): DatedHorizon => {
    const nominal = (depth * (i + 0.2 + 0.6 * stream.uniform())) / 6;
    const depth_m = shift.map((s) => Math.max(0.001, nominal + s + 0.02 * stream.normal()));
    const away =
      stream.uniform() < OUT_OF_PLACE ? 1000 * stream.exponential() * (stream.uniform() < 0.5 ? -1 : 1) : 0;
    const mean = age_cal_bp(depth_m[state]!) + away + 60 * stream.normal();
    const from_cal_bp = Math.floor(mean - 360);
    const density = Float64Array.from({ length: 721 }, (_, y) =>
      exp(-0.5 * ((from_cal_bp + y - mean) / 60) ** 2),
    );
    return { id: `D${i + 1}`, depth_m, age: { from_cal_bp, density } };
  });
  return {
    input: {
      horizons,
      breaks: [],
      surface: { age_cal_bp: -60, sd_yr: 1 },
      bottom_m,
      beds: strata.flatMap(({ usual_mm_yr, top, bottom }, n) =>
        usual_mm_yr === null ? [{ id: `bed ${n + 1}`, top_m: top, bottom_m: bottom }] : [],
      ),
      layers: strata.flatMap(({ usual_mm_yr, top, bottom }) =>
        usual_mm_yr === null ? [] : [{ usual_mm_yr, top_m: top, bottom_m: bottom }],
      ),
    },
    age_cal_bp,
  };
}
