/**
 * Constant flux and constant sedimentation: lead-210 and sediment both come evenly, so the logarithm of the
 * unsupported activity falls along a straight line (from memory; Krishnaswamy et al. 1971, Earth Planet. Sci. Lett.
 * 11:407–414). t = bx/λ with the slope b against dry mass over area, or against depth where no density is known.
 */
import { exp, log, square } from '@stillstand/science/base';

export interface Decline {
  /** Fall of ln C per unit of x, and ln C at the surface. */
  slope: number;
  intercept: number;
}

/** Weighted least squares; cells with no activity above 0 are passed over. Null for fewer than two. */
export function decline(
  x: ArrayLike<number>,
  excess: ArrayLike<number>,
  weights: ArrayLike<number>,
): Decline | null {
  let [sum, sum_x, sum_y, count] = [0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    if (!(excess[i]! > 0 && weights[i]! > 0)) continue;
    count += 1;
    sum += weights[i]!;
    sum_x += weights[i]! * x[i]!;
    sum_y += weights[i]! * log(excess[i]!);
  }
  if (count < 2) return null;
  const [mean_x, mean_y] = [sum_x / sum, sum_y / sum];
  let [squares, products] = [0, 0];
  for (let i = 0; i < x.length; i++) {
    if (!(excess[i]! > 0 && weights[i]! > 0)) continue;
    squares += weights[i]! * square(x[i]! - mean_x);
    products += weights[i]! * (x[i]! - mean_x) * (log(excess[i]!) - mean_y);
  }
  const slope = -products / squares;
  return { slope, intercept: mean_y + slope * mean_x };
}

/**
 * The same curve by least squares of the activities themselves, from `start` (Gauss–Newton): unlike their logarithms,
 * they err alike above and below, and those below 0 count too. Null where it does not settle.
 */
export function exponential(
  x: ArrayLike<number>,
  excess: ArrayLike<number>,
  sd: ArrayLike<number>,
  start: Decline,
): Decline | null {
  let { slope, intercept } = start;
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    let [aa, ab, bb, ar, br] = [0, 0, 0, 0, 0];
    for (let i = 0; i < x.length; i++) {
      const fitted = exp(intercept - slope * x[i]!);
      const a = fitted / sd[i]!;
      const b = -x[i]! * a;
      const r = (excess[i]! - fitted) / sd[i]!;
      aa += a * a;
      ab += a * b;
      bb += b * b;
      ar += a * r;
      br += b * r;
    }
    const determinant = aa * bb - ab * ab;
    const up = (bb * ar - ab * br) / determinant;
    const steeper = (aa * br - ab * ar) / determinant;
    if (!(Math.abs(up) < FARTHEST)) return null;
    intercept += up;
    slope += steeper;
    if (Math.abs(up) < 1e-9 && Math.abs(steeper * x[x.length - 1]!) < 1e-9) return { slope, intercept };
  }
  return null;
}

const MOST_TURNS = 50;
/** A step of the logarithm as long as this leads nowhere. */
const FARTHEST = 5;

/** Chi-square of the curve. */
export function misfit(
  { slope, intercept }: Decline,
  x: ArrayLike<number>,
  excess: ArrayLike<number>,
  sd: ArrayLike<number>,
): number {
  let chi_square = 0;
  for (let i = 0; i < x.length; i++)
    chi_square += square((excess[i]! - exp(intercept - slope * x[i]!)) / sd[i]!);
  return chi_square;
}
