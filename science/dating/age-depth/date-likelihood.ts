/**
 * What a date says of the age of its layer, a mixture: with probability 1 − ε it is of that age, with ε it is out of
 * place, older or younger by a two-sided exponential of one of the stated scales,
 *
 *     L(t) = (1 − ε) f(t) + ε Σ_s (f ∗ k_s)(t) ÷ scales,   k_s(δ) = e^(−|δ|/s)/2s
 *
 * after the contamination of Christen & Pérez 2009, Radiocarbon 51:1047–1059. f is even within whole-year cells; so is
 * the mixture.
 */
import { exp, log, logAdd, square } from '@stillstand/science/base';

/** Years looked up beyond the ends of a date; farther off its parts are added up when asked for. */
const MARGIN = 1000;

export interface DateLikelihood {
  /** From `MARGIN` years before the first of f to as many after its last: log L, and log of its part out of place. */
  from_cal_bp: number;
  whole: Float64Array;
  outOfPlace: Float64Array;
  /** By scale: log of its part one year beyond the younger and the older end of these, and the scale. */
  younger: Float64Array;
  older: Float64Array;
  scale_yr: Float64Array;
  mean_cal_bp: number;
  sd_yr: number;
  /** log L of a year whose part in place was given again and which was not asked for since. */
  given: ((cell: number) => number) | null;
}

/** Null where the density has no mass. */
export function dateLikelihood(
  age: { from_cal_bp: number; density: Float64Array },
  outOfPlace: number,
  scales_yr: readonly number[],
): DateLikelihood | null {
  const { density, from_cal_bp } = age;
  const n = density.length;
  let total = 0;
  let first = 0;
  for (let i = 0; i < n; i++) {
    total += density[i]!;
    first += i * density[i]!;
  }
  if (!(total > 0 && total < Infinity)) return null;
  const centre = first / total;
  // Cells are a year wide: a twelfth of a square year.
  let squares = total / 12;
  for (let i = 0; i < n; i++) squares += density[i]! * square(i - centre);

  const years = n + 2 * MARGIN;
  const f = new Float64Array(years);
  for (let i = 0; i < n; i++) f[MARGIN + i] = density[i]! / total;
  const out = new Float64Array(years);
  const younger = new Float64Array(scales_yr.length);
  const older = new Float64Array(scales_yr.length);
  scales_yr.forEach((scale, s) => {
    // Of cells a year apart; summed over all years it is 1.
    const decay = exp(-1 / scale);
    const peak = ((1 - decay) / (1 + decay)) * (outOfPlace / scales_yr.length);
    let above = 0;
    for (let i = 0; i < years; i++) {
      above = above * decay + f[i]!;
      out[i] = out[i]! + peak * above;
    }
    let below = 0;
    for (let i = years - 1; i >= 0; i--) {
      out[i] = out[i]! + peak * below;
      below = (below + f[i]!) * decay;
    }
    younger[s] = log(peak * below);
    older[s] = log(peak * above * decay);
  });
  const whole = out.map((o, i) => log((1 - outOfPlace) * f[i]! + o));
  return {
    from_cal_bp: from_cal_bp - MARGIN,
    whole,
    outOfPlace: out.map(log),
    younger,
    older,
    scale_yr: Float64Array.from(scales_yr),
    mean_cal_bp: from_cal_bp + centre,
    sd_yr: Math.sqrt(squares / total),
    given: null,
  };
}

/** A date of its own, whose in-place part may be given again. */
export const ownDate = (date: DateLikelihood): DateLikelihood => ({ ...date, whole: date.whole.slice() });

/** e⁻⁴⁰ of another is less than a number can hold beside it. */
const NOTHING = -40;

/**
 * Gives its part in place again, by the log of its density in each year: as where an error that it shares with others is
 * known. Out of place it stays as it is. Years are worked out as they are asked for, which few of them are before the next.
 */
export function giveInPlace(
  date: DateLikelihood,
  probability: number,
  logDensity: (age_cal_bp: number) => number,
): void {
  const { from_cal_bp, whole, outOfPlace } = date;
  whole.fill(Number.NaN, MARGIN, whole.length - MARGIN);
  date.given = (cell) => {
    const out = outOfPlace[cell]!;
    const inPlace = logDensity(from_cal_bp + cell);
    return inPlace < out + NOTHING ? out : log(probability * exp(inPlace) + exp(out));
  };
}

/** log L of an age. */
export function logLikelihood(date: DateLikelihood, age_cal_bp: number): number {
  const { whole } = date;
  const cell = Math.floor(age_cal_bp - date.from_cal_bp + 0.5);
  if (!(cell >= 0 && cell < whole.length)) return beyond(date, cell);
  const known = whole[cell]!;
  if (date.given === null || !Number.isNaN(known)) return known;
  const found = date.given(cell);
  whole[cell] = found;
  return found;
}

/** Log of its part out of place. */
export function logOutOfPlace(date: DateLikelihood, age_cal_bp: number): number {
  const cell = Math.floor(age_cal_bp - date.from_cal_bp + 0.5);
  if (cell >= 0 && cell < date.whole.length) return date.outOfPlace[cell]!;
  return beyond(date, cell);
}

/** Probability that the date is out of place, its layer being of that age. */
export function outOfPlaceAt(date: DateLikelihood, age_cal_bp: number): number {
  return exp(logOutOfPlace(date, age_cal_bp) - logLikelihood(date, age_cal_bp));
}

/** Of a cell farther off: the scales' exponentials go on, added as logarithms so that none is lost far away. */
function beyond({ whole, younger, older, scale_yr }: DateLikelihood, cell: number): number {
  const isYounger = cell < 0;
  const away = isYounger ? -cell - 1 : cell - whole.length;
  const ends = isYounger ? younger : older;
  let sum = -Infinity;
  for (let s = 0; s < ends.length; s++) sum = logAdd(ends[s]! - away / scale_yr[s]!, sum);
  return sum;
}
