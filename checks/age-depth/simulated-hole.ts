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

interface Shape {
  bottom_m: number;
  dates: number;
  sd_yr: number;
  shift_m: number;
  own_m: number;
  breaks: number;
  /** Ends of slices from the ground down, which nothing dated and no break lies among: sections are as fine as they. */
  slices_m?: readonly number[];
  ground?: { age_cal_bp: number; sd_yr: number };
  /** What is read of date i, where the age it reads is that; normal of `sd_yr` about it, if not given. */
  read?: (i: number, true_cal_bp: number, stream: RandomStream) => DatedHorizon['age'];
}

/** Thickness of each section; the section a depth lies in, with its share of it above; the boundary nearest to a depth. */
interface Layout {
  thickness_m: readonly number[];
  placeOf: (depth_m: number) => [section: number, share: number];
  edgeNearest: (depth_m: number) => number;
}

function even(deepest_m: number, sections: number): Layout {
  const thickness = deepest_m / sections;
  return {
    thickness_m: Array.from({ length: sections }, () => thickness),
    placeOf: (depth_m) => {
      const j = Math.min(sections - 1, Math.floor(depth_m / thickness));
      return [j, depth_m / thickness - j];
    },
    edgeNearest: (depth_m) => Math.round(depth_m / thickness),
  };
}

/** One section a slice, and below the slices as many of even thickness as the hole would have there without them. */
function sliced(deepest_m: number, sections: number, ends_m: readonly number[]): Layout {
  const bottom = ends_m.at(-1)!;
  const below = Math.ceil((deepest_m - bottom) / (deepest_m / sections));
  const edges = [
    ...ends_m,
    ...Array.from({ length: below }, (_, k) => bottom + ((k + 1) * (deepest_m - bottom)) / below),
  ];
  const thickness_m = edges.slice(1).map((edge, k) => edge - edges[k]!);
  return {
    thickness_m,
    placeOf: (depth_m) => {
      const j = Math.max(
        0,
        edges.slice(0, -1).findLastIndex((edge) => edge <= depth_m),
      );
      return [j, (depth_m - edges[j]!) / thickness_m[j]!];
    },
    edgeNearest: (depth_m) =>
      edges.reduce(
        (best, edge, k) => (Math.abs(edge - depth_m) < Math.abs(edges[best]! - depth_m) ? k : best),
        0,
      ),
  };
}

/** Of these settings; depths are a common shift and a share of their own, 50 states of the hole. */
export function drawHole(s: AgeDepthSettings, shape: Shape, stream: RandomStream): SimulatedHole {
  const states = 50;
  const { slices_m, ground: surface = { age_cal_bp: -60, sd_yr: 5 } } = shape;
  // Below the slices with room for the errors of depths.
  const [highest, span] =
    slices_m === undefined
      ? [0.04, 0.9]
      : [slices_m.at(-1)! / shape.bottom_m + 0.1, 0.84 - slices_m.at(-1)! / shape.bottom_m];
  const place = (): Float64Array => {
    const depth = shape.bottom_m * (highest + span * stream.uniform());
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
  const layout = slices_m === undefined ? even(deepest, s.sections) : sliced(deepest, s.sections, slices_m);
  const fine = 8;
  const cuts = breaks.map(({ depth_m }) => {
    const sorted = [...depth_m].sort((a, b) => a - b);
    return fine * layout.edgeNearest((sorted[states / 2 - 1]! + sorted[states / 2]!) / 2);
  });
  // The process itself, eight times as fine as the sections, and its means over them.
  const top = [0];
  let w = stream.normal();
  let before = 0;
  for (const [j, thickness] of layout.thickness_m.entries()) {
    const cell = thickness / fine;
    let sum = 0;
    for (let f = 0; f < fine; f++) {
      const at = j * fine + f;
      // From the middle of one cell to that of the next.
      const phi = exp(-(f === 0 ? (before + cell) / 2 : cell) / persistence_m);
      if (at > 0)
        w = cuts.includes(at) ? stream.normal() : phi * w + Math.sqrt(1 - phi ** 2) * stream.normal();
      sum += w;
    }
    before = cell;
    top.push(top[j]! + thickness * exp(mean + (variation * sum) / fine));
  }
  const ground = surface.age_cal_bp + surface.sd_yr * stream.normal();
  const gap_yr = breaks.map(() => s.gap_mean_yr * stream.exponential());
  const age_cal_bp = (depth_m: number): number => {
    const [j, share] = layout.placeOf(depth_m);
    const bare = top[j]! + share * (top[j + 1]! - top[j]!);
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
    const age =
      shape.read === undefined
        ? dated(t, shape.sd_yr * (0.6 + 0.8 * stream.uniform()), stream)
        : shape.read(i, t, stream);
    return { id: `D${i + 1}`, depth_m, age };
  });
  return {
    input: { horizons, surface, breaks, bottom_m: shape.bottom_m },
    age_cal_bp,
    state,
    outOfPlace,
    gap_yr,
    variation,
    persistence_m,
    accumulation_mm_yr: 1000 / exp(mean),
  };
}
