/** The slow twin of age against depth: everything in the open, covariance matrix, cells of a year, sums over all years. */
import { randomStream } from '@stillstand/science/base';
import type { AgeDepthInput, AgeDepthSettings } from '@stillstand/science/dating';

export interface WeightedHistories {
  /** How well each history fits the dates. */
  weight: Float64Array;
  /** By the names of the quantities of a run, in their units. */
  values: Map<string, Float64Array>;
  /** Probability of each date, by name. */
  outOfPlace: Map<string, number>;
  /** [error][history]: how well it fits the dates where that is the error they share; [error][date]: of it, out of place. */
  given: { weight: Float64Array; outOfPlace: number[] }[];
}

/** An error that dates share: its values in its sds; density of date i in place in a year given it, null of a date that shares none. */
export interface ErrorInTwin {
  errors: readonly number[];
  inPlace: (i: number, year: number, error: number) => number | null;
}

/** What the ground says: depths without beds in a state of the hole, the bottom so, and by section o_j of u_j = μ + o_j + s·w_j. */
export interface SaidByGround {
  depth_m: (below_ground_m: number, state: number) => number;
  bottom_m: number;
  offset: readonly number[];
}

/** `count` histories drawn from the prior and weighted by the dates; of three sections and one break in the first of them. */
export function weightedHistories(
  input: AgeDepthInput,
  s: AgeDepthSettings,
  count: number,
  seed: number,
  said: SaidByGround = { depth_m: (d) => d, bottom_m: input.bottom_m, offset: [0, 0, 0] },
  shared: ErrorInTwin = { errors: [], inPlace: () => null },
): WeightedHistories {
  const stream = randomStream(seed).split('twin');
  const n = s.sections;
  const h = said.bottom_m / n;
  const ofHole = said.offset.reduce((a, b) => a + b) / n;
  const tables = input.horizons.map(({ age }) => {
    const total = age.density.reduce((a, b) => a + b);
    const last = age.from_cal_bp + age.density.length - 1;
    const at = (year: number): number => (age.density[year - age.from_cal_bp] ?? 0) / total;
    const spread = (year: number, scale: number): number => {
      const d = Math.exp(-1 / scale);
      let sum = 0;
      for (let y = age.from_cal_bp; y <= last; y++) sum += at(y) * d ** Math.abs(y - year);
      return (sum * (1 - d)) / (1 + d) / s.outlier_scales_yr.length;
    };
    const cache = new Map<number, number>();
    const cached = (year: number, scale: number): number => {
      const key = year * 1e6 + scale;
      if (!cache.has(key)) cache.set(key, spread(year, scale));
      return cache.get(key)!;
    };
    return (t: number): { year: number | null; inPlace: number; out: number } => {
      const year = Math.floor(t + 0.5);
      // Beyond its ends the sum over the years of the date falls by the same part from year to year.
      const inside = Math.min(last, Math.max(age.from_cal_bp, year));
      let out = 0;
      for (const scale of s.outlier_scales_yr)
        out += cached(inside, scale) * Math.exp(-Math.abs(year - inside) / scale);
      return {
        year: inside === year ? year : null,
        inPlace: (1 - s.outlier) * at(year),
        out: s.outlier * out,
      };
    };
  });
  const weight = new Float64Array(count);
  const out = input.horizons.map(() => 0);
  const given = shared.errors.map(() => ({ weight: new Float64Array(count), outOfPlace: out.slice() }));
  const names = [
    ...input.horizons.map(({ id }) => `age of ${id}`),
    `age at ${input.bottom_m.toFixed(2)} m`,
    'gap at contact',
    'variation of accumulation',
    'persistence of accumulation',
    'accumulation of the hole',
  ];
  const values = names.map(() => new Float64Array(count));
  for (let draw = 0; draw < count; draw++) {
    const mean = Math.log(1000 / s.accumulation_mm_yr) + s.accumulation_log_sd * stream.normal();
    const variation = s.variation * Math.exp(s.variation_log_sd * stream.normal());
    const persistence = s.persistence_m * Math.exp(s.persistence_log_sd * stream.normal());
    const r = h / persistence;
    const v = (2 * (r - 1 + Math.exp(-r))) / r ** 2;
    const phi = (2 - r * v) / (2 + r * v);
    // Section 1 is the first below the break at about 1 m.
    const w = [Math.sqrt(v) * stream.normal(), Math.sqrt(v) * stream.normal()];
    w.push(phi * w[1]! + Math.sqrt(v * (1 - phi ** 2)) * stream.normal());
    const x = w.map((each, j) => Math.exp(mean + said.offset[j]! + variation * each));
    const { youngest, oldest } = s.age_range_cal_bp;
    const ground =
      input.surface === null
        ? youngest + (oldest - youngest) * stream.uniform()
        : input.surface.age_cal_bp + input.surface.sd_yr * stream.normal();
    const gap = s.gap_mean_yr * stream.exponential();
    const k = stream.integer(4);
    const age = (d: number): number => {
      let sum = ground + (d > input.breaks[0]!.depth_m[k]! ? gap : 0);
      const own = said.depth_m(d, k);
      for (let j = 0; j < n; j++) sum += x[j]! * Math.min(h, Math.max(0, own - j * h));
      return sum;
    };
    const ages = input.horizons.map(({ depth_m }) => age(depth_m[k]!));
    let fits = 1;
    const read = ages.map((t, i) => tables[i]!(t));
    shared.errors.forEach((error, e) => {
      const both = read.map((l, i) => {
        const density = l.year === null ? 0 : shared.inPlace(i, l.year, error);
        return { out: l.out, whole: l.out + (density === null ? l.inPlace : (1 - s.outlier) * density) };
      });
      const fitsGiven = both.reduce((product, { whole }) => product * whole, 1);
      given[e]!.weight[draw] = fitsGiven;
      both.forEach((l, i) => {
        given[e]!.outOfPlace[i]! += l.out > 0 ? (fitsGiven * l.out) / l.whole : fitsGiven;
      });
    });
    const isOut = read.map((l) => {
      fits *= l.inPlace + l.out;
      // Both are nothing where a history runs to millions of years.
      return l.out > 0 ? l.out / (l.inPlace + l.out) : 1;
    });
    weight[draw] = fits;
    isOut.forEach((p, i) => {
      out[i]! += fits * p;
    });
    const here = [...ages, age(input.bottom_m), gap, variation, persistence, 1000 / Math.exp(mean + ofHole)];
    here.forEach((value, i) => {
      values[i]![draw] = value;
    });
  }
  const total = weight.reduce((a, b) => a + b);
  return {
    weight,
    values: new Map(names.map((name, i) => [name, values[i]!])),
    outOfPlace: new Map(input.horizons.map(({ id }, i) => [id, out[i]! / total])),
    given,
  };
}

/** Mean and sd of a value over the weighted histories, and the Monte-Carlo error of the mean. */
export function weighed(
  weight: Float64Array,
  values: Float64Array,
): { mean: number; sd: number; error: number } {
  let total = 0;
  let sum = 0;
  weight.forEach((w, k) => {
    total += w;
    sum += w * values[k]!;
  });
  const mean = sum / total;
  let square = 0;
  let error = 0;
  weight.forEach((w, k) => {
    square += w * (values[k]! - mean) ** 2;
    error += (w * (values[k]! - mean)) ** 2;
  });
  return { mean, sd: Math.sqrt(square / total), error: Math.sqrt(error) / total };
}
