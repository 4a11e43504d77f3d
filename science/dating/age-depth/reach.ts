/**
 * A layer's age drawn anew from its date, in place or out of it, whatever it was: the way from one reading of a date to
 * another that no walk finds. The section boundary below the horizon moves as in a hat (`moves.ts`), the block above it
 * being scaled by what takes the horizon to the age drawn; with that block's time T_a and the next one's T_b the measure
 * is dT_a dT_b/(T_a T_b), and the horizon's age is a fixed share of T_a.
 */
import { exp, log, type RandomStream, sampleGrid } from '@stillstand/science/base';
import { type DateLikelihood, logLikelihood, logOutOfPlace, ownDate } from './date-likelihood.ts';
import { accept, type History, propose } from './history.ts';
import type { Hole } from './hole.ts';

/** The inverse cumulative distribution of a date, and the date: of the drawing, whatever else is learnt of it. */
export interface Reach {
  draw: (u: number) => number;
  date: DateLikelihood;
}

export const reachesOf = ({ horizons, dates }: Hole): Reach[] =>
  horizons.map(({ age }, i) => ({
    draw: sampleGrid({ from: age.from_cal_bp, step: 1, density: age.density }),
    date: ownDate(dates[i]!),
  }));

/** Draws for the date numbered i; returns whether it was taken. */
export function reachFor(
  h: History,
  i: number,
  { draw: sampler, date }: Reach,
  stream: RandomStream,
): boolean {
  const { hole, top_cal_bp } = h;
  const { sections, dates } = hole;
  const middle = hole.section[h.state * dates.length + i]! + 1;
  let from: number;
  let to: number;
  if (stream.uniform() < 0.5) {
    const size = 1 << stream.integer(32 - Math.clz32(sections - 1));
    from = Math.max(0, middle - size);
    to = Math.min(sections, middle + size);
  } else {
    // As far as another horizon, which stays; none there: to the ground, or with all below.
    const first = h.state * dates.length;
    from = hole.section[first + stream.integer(dates.length)]! + 1;
    if (from >= middle) from = 0;
    to = Math.max(middle, hole.section[first + stream.integer(dates.length)]!);
  }
  const start = top_cal_bp[from]! + h.gaps_yr[i]!;
  const old = h.bare_cal_bp[i]! + h.gaps_yr[i]!;
  const drawn = draw(hole, sampler, stream);
  const above = (drawn - start) / (old - start);
  const upper = top_cal_bp[middle]! - top_cal_bp[from]!;
  const lower = top_cal_bp[to]! - top_cal_bp[middle]!;
  const isLast = to === middle;
  const below = isLast ? 1 : (lower - (above - 1) * upper) / lower;
  if (!(above > 0 && below > 0 && above < Infinity)) return false;
  const logAbove = log(above);
  const logBelow = isLast ? 0 : log(below);
  const gain =
    logDrawn(hole, date, old) -
    logDrawn(hole, date, drawn) -
    logAbove -
    logBelow +
    propose(h, from, middle, to, above, below, logAbove, logBelow, !isLast);
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return false;
  accept(h);
  return true;
}

/** Half in place, half out of it by one of the scales: whole years either way, then even within the year. */
function draw({ settings }: Hole, sampler: Reach['draw'], stream: RandomStream): number {
  const t = sampler(stream.uniform());
  if (stream.uniform() < 0.5) return t;
  const scales = settings.outlier_scales_yr;
  const scale = scales[stream.integer(scales.length)]!;
  return t + Math.floor(scale * stream.exponential()) - Math.floor(scale * stream.exponential());
}

/** Log density of that. */
function logDrawn({ settings }: Hole, date: DateLikelihood, age_cal_bp: number): number {
  const out = exp(logOutOfPlace(date, age_cal_bp));
  const whole = exp(logLikelihood(date, age_cal_bp));
  const { outlier } = settings;
  return log(Math.max(0, whole - out) / (1 - outlier) + out / outlier);
}
