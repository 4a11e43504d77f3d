/**
 * How the rate varies, as a chain has it now: one contract for every model of it. Between breaks the rate is a Matérn-3/2
 * process (`rate-process.ts`) or, with λ = 0, keeps its value; at a break it starts afresh, knowing nothing of before, and
 * the level may jump. Two pieces share only the level between them, so the state stays (f, r/σ, r′/(σλ)) with the identity
 * as the stationary covariance of the last two, forwards and backwards in time.
 *
 * Over a gap with breaks, of pieces d₁ (up to the first), d₂ … (between) and d (from the last):
 *   f ← f − a₁·r − b₁·r′ + noise of the first piece + Σ over the pieces between of N(0, a² + b² + Q₀₀) + N(0, jump²) each break
 *   (r, r′) ← N(0, I) at the last break, then the step over d.
 */
import { rateStep, rateTransition, STEP } from './rate-process.ts';

export interface Rates {
  /** 1 sd of the rate, mm/yr = m/ka; per ka, 0 for a rate that keeps its value; their ratio, m. */
  sd_mm_yr: number;
  lambda: number;
  kappa_m: number;
  /** Mean of the rate at 1950 CE, mm/yr, and by how much it is larger a thousand years earlier, mm/yr per ka. */
  mean_mm_yr: number;
  slowing_mm_yr_ka: number;
  /** Ages at which the rate starts afresh, ka, ascending: the first so many. */
  break_ka: Float64Array;
  breaks: number;
  /** 1 sd of a jump of the level at each, m; 0 for none. */
  jump_sd_m: number;
}

/** Level that the mean rate alone would take off by this age, m: ∫₀ᵗ of it. */
export const trend_m = ({ mean_mm_yr, slowing_mm_yr_ka }: Rates, age_ka: number): number =>
  mean_mm_yr * age_ka + 0.5 * slowing_mm_yr_ka * age_ka * age_ka;

/** Mean of the rate at an age, mm/yr. */
export const meanRate = ({ mean_mm_yr, slowing_mm_yr_ka }: Rates, age_ka: number): number =>
  mean_mm_yr + slowing_mm_yr_ka * age_ka;

/** A smooth rate without breaks. */
export const smoothRates = (sd_mm_yr: number, length_ka: number, mean_mm_yr: number): Rates => {
  const lambda = Math.sqrt(3) / length_ka;
  return {
    sd_mm_yr,
    lambda,
    kappa_m: sd_mm_yr / lambda,
    mean_mm_yr,
    slowing_mm_yr_ka: 0,
    break_ka: new Float64Array(1),
    breaks: 0,
    jump_sd_m: 0,
  };
};

/**
 * The same with room of its own for breaks. Number by number, here and below: an engine has been seen to let two objects share
 * a number that one was spread from (`problem/age-prior.ts`), and what is proposed would then change what is.
 */
export const copyWith = (
  { sd_mm_yr, lambda, kappa_m, mean_mm_yr, slowing_mm_yr_ka, breaks, jump_sd_m }: Rates,
  break_ka: Float64Array,
): Rates => ({ sd_mm_yr, lambda, kappa_m, mean_mm_yr, slowing_mm_yr_ka, break_ka, breaks, jump_sd_m });

/** The same, apart. */
export const copyOf = (rates: Rates): Rates => copyWith(rates, rates.break_ka.slice());

/** Into `out`: all but the breaks, for which it keeps its own room. */
export function copyScale(rates: Rates, out: Rates): void {
  out.sd_mm_yr = rates.sd_mm_yr;
  out.lambda = rates.lambda;
  out.kappa_m = rates.kappa_m;
  out.mean_mm_yr = rates.mean_mm_yr;
  out.slowing_mm_yr_ka = rates.slowing_mm_yr_ka;
  out.jump_sd_m = rates.jump_sd_m;
}

/** Into `out`: the same breaks. */
export function copyBreaks(rates: Rates, out: Rates): void {
  out.break_ka.set(rates.break_ka);
  out.breaks = rates.breaks;
}

/** Into `out`: the same. */
export function copyInto(rates: Rates, out: Rates): void {
  copyScale(rates, out);
  copyBreaks(rates, out);
}

/** Into `out`: the same with one break more, for which both have room. */
export function withBreak(rates: Rates, age_ka: number, out: Rates): void {
  copyScale(rates, out);
  out.breaks = rates.breaks + 1;
  let to = rates.breaks;
  for (; to > 0 && rates.break_ka[to - 1]! > age_ka; to--) out.break_ka[to] = rates.break_ka[to - 1]!;
  out.break_ka[to] = age_ka;
  for (let k = 0; k < to; k++) out.break_ka[k] = rates.break_ka[k]!;
}

/** Into `out`: the same without its break number `k`. */
export function withoutBreak(rates: Rates, k: number, out: Rates): void {
  copyScale(rates, out);
  out.breaks = rates.breaks - 1;
  for (let from = 0, to = 0; from < rates.breaks; from++) {
    if (from !== k) out.break_ka[to++] = rates.break_ka[from]!;
  }
}

const piece = new Float64Array(STEP);

/** Transition and noise from one age to another, older or younger: fills STEP numbers as `rateStep` does, the sign of level
 * and slope turned where it runs towards younger ages. */
export function stepOver(rates: Rates, from_ka: number, to_ka: number, out: Float64Array): void {
  if (rates.breaks > 0) {
    const [low, high] = from_ka <= to_ka ? [from_ka, to_ka] : [to_ka, from_ka];
    let first = 0;
    while (first < rates.breaks && rates.break_ka[first]! <= low) first++;
    let last = rates.breaks - 1;
    while (last >= 0 && rates.break_ka[last]! > high) last--;
    if (first <= last) {
      overBreaks(rates, from_ka, to_ka, first, last, out);
      return;
    }
  }
  pieceOver(rates, Math.abs(to_ka - from_ka), out);
}

/** Transition alone, five numbers. */
export function transitionOver(rates: Rates, from_ka: number, to_ka: number, out: Float64Array): void {
  if (rates.breaks === 0 && rates.lambda > 0)
    rateTransition(to_ka - from_ka, rates.lambda, rates.kappa_m, out);
  else stepOver(rates, from_ka, to_ka, out);
}

/** Over a gap without a break. */
function pieceOver({ lambda, kappa_m, sd_mm_yr }: Rates, gap_ka: number, out: Float64Array): void {
  if (lambda > 0) {
    rateStep(gap_ka, lambda, kappa_m, out);
    return;
  }
  out.fill(0, 0, STEP);
  out[0] = sd_mm_yr * gap_ka;
  out[2] = 1;
  out[4] = 1;
}

function overBreaks(
  rates: Rates,
  from_ka: number,
  to_ka: number,
  first: number,
  last: number,
  out: Float64Array,
): void {
  const isOlder = from_ka <= to_ka;
  const { break_ka, jump_sd_m } = rates;
  const [leaves, enters] = isOlder ? [first, last] : [last, first];
  let level = (last - first + 1) * jump_sd_m * jump_sd_m;
  for (let k = first; k < last; k++) {
    pieceOver(rates, break_ka[k + 1]! - break_ka[k]!, piece);
    level += piece[0]! * piece[0]! + piece[1]! * piece[1]! + piece[5]!;
  }
  pieceOver(rates, Math.abs(break_ka[leaves]! - from_ka), piece);
  const a = piece[0]!;
  const b = piece[1]!;
  level += piece[5]!;
  pieceOver(rates, Math.abs(to_ka - break_ka[enters]!), piece);
  const [a2, b2, p, q, w] = [piece[0]!, piece[1]!, piece[2]!, piece[3]!, piece[4]!];
  level += a2 * a2 + b2 * b2 + piece[5]!;
  out[0] = a;
  out[1] = b;
  out[2] = 0;
  out[3] = 0;
  out[4] = 0;
  out[5] = level;
  out[6] = piece[6]! - a2 * p - b2 * q;
  out[7] = piece[7]! + a2 * q - b2 * w;
  out[8] = 1;
  out[9] = 0;
  out[10] = 1;
}
