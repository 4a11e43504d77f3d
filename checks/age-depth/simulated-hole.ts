/** Holes whose truth is known: drawn from the prior, by formulas of their own. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import type { AgeDepthInput, AgeDepthSettings, DatedHorizon } from '@stillstand/science/dating';

export interface SimulatedHole {
  input: AgeDepthInput;
  /** True age at a depth in the true state of the hole; and that state. */
  age_cal_bp: (depth_m: number) => number;
  state: number;
  outOfPlace: boolean[];
  gap_yr: number[];
  variation: number;
  persistence_m: number;
  accumulation_mm_yr: number;
}

/** A date read with an error of its own: even within whole years, normal with that sd. */
function dated(true_cal_bp: number, sd_yr: number, stream: RandomStream): DatedHorizon['age'] {
  const read = true_cal_bp + sd_yr * stream.normal();
  const from_cal_bp = Math.floor(read - 6 * sd_yr);
  const density = Float64Array.from({ length: Math.ceil(12 * sd_yr) + 1 }, (_, i) =>
    exp(-0.5 * ((from_cal_bp + i - read) / sd_yr) ** 2),
  );
  return { from_cal_bp, density };
}

/** Of these settings; depths are a common shift and a share of their own, 50 states of the hole. */
export function drawHole(
  s: AgeDepthSettings,
  shape: { bottom_m: number; dates: number; sd_yr: number; shift_m: number; own_m: number; breaks: number },
  stream: RandomStream,
): SimulatedHole {
  const states = 50;
  const place = (): Float64Array => {
    const depth = shape.bottom_m * (0.04 + 0.9 * stream.uniform());
    return Float64Array.from({ length: states }, (_, k) =>
      Math.max(0.001, depth + shape.shift_m * shift[k]! + shape.own_m * stream.normal()),
    );
  };
  const shift = Float64Array.from({ length: states }, () => stream.normal());
  const depths = Array.from({ length: shape.dates }, place);
  const breaks = Array.from({ length: shape.breaks }, (_, b) => ({
    id: `contact ${b + 1}`,
    depth_m: place(),
  }));
  const state = stream.integer(states);

  const mean = log(1000 / s.accumulation_mm_yr) + s.accumulation_log_sd * stream.normal();
  const variation = s.variation * exp(s.variation_log_sd * stream.normal());
  const persistence_m = s.persistence_m * exp(s.persistence_log_sd * stream.normal());
  // The deepest draw ends the hole where it is below the bottom.
  const deepest = Math.max(
    shape.bottom_m,
    ...depths.flatMap((d) => [...d]),
    ...breaks.flatMap((b) => [...b.depth_m]),
  );
  const fine = 8;
  const cell = deepest / s.sections / fine;
  const cuts = breaks.map(({ depth_m }) => {
    const sorted = [...depth_m].sort((a, b) => a - b);
    return fine * Math.round((sorted[states / 2 - 1]! + sorted[states / 2]!) / 2 / (cell * fine));
  });
  // The process itself, eight times as fine as the sections, and its means over them.
  const phi = exp(-cell / persistence_m);
  const top = [0];
  let w = stream.normal();
  for (let j = 0; j < s.sections; j++) {
    let sum = 0;
    for (let f = 0; f < fine; f++) {
      const at = j * fine + f;
      if (at > 0)
        w = cuts.includes(at) ? stream.normal() : phi * w + Math.sqrt(1 - phi ** 2) * stream.normal();
      sum += w;
    }
    top.push(top[j]! + cell * fine * exp(mean + (variation * sum) / fine));
  }
  const ground = -60 + 5 * stream.normal();
  const gap_yr = breaks.map(() => s.gap_mean_yr * stream.exponential());
  const age_cal_bp = (depth_m: number): number => {
    const j = Math.min(s.sections - 1, Math.floor(depth_m / (cell * fine)));
    const bare = top[j]! + (depth_m / (cell * fine) - j) * (top[j + 1]! - top[j]!);
    return (
      ground + bare + breaks.reduce((sum, b, i) => sum + (depth_m > b.depth_m[state]! ? gap_yr[i]! : 0), 0)
    );
  };
  const outOfPlace = depths.map(() => stream.uniform() < s.outlier);
  const horizons = depths.map((depth_m, i): DatedHorizon => {
    let t = age_cal_bp(depth_m[state]!);
    if (outOfPlace[i]) {
      const scale = s.outlier_scales_yr[stream.integer(s.outlier_scales_yr.length)]!;
      t += scale * stream.exponential() * (stream.uniform() < 0.5 ? -1 : 1);
    }
    return { id: `D${i + 1}`, depth_m, age: dated(t, shape.sd_yr * (0.6 + 0.8 * stream.uniform()), stream) };
  });
  return {
    input: { horizons, surface: { age_cal_bp: -60, sd_yr: 5 }, breaks, bottom_m: shape.bottom_m },
    age_cal_bp,
    state,
    outOfPlace,
    gap_yr,
    variation,
    persistence_m,
    accumulation_mm_yr: 1000 / exp(mean),
  };
}
