/**
 * The invented coast's true sea level: what the demo campaign is made from, and what its result is held against.
 * A fast early rise that slows (softplus), then a slow fall from a small highstand (exponential): smooth, closed in
 * form, and nowhere a straight line.
 */
import { exp, log1p } from '@stillstand/science/base';

/** Speed of the early rise, m/ka, long before the turn. */
const RISE_M_PER_KA = 8;
/** When the rise slows, ka BP, and how long that takes. */
const TURN_KA = 7;
const TURN_WIDTH_KA = 0.6;
/** Height the sea has fallen by since the highstand, if the rise had stopped at once, m, and its time scale, ka. */
const FALL_M = 0.8;
const FALL_SCALE_KA = 2.5;
/** Middle of the tidal epoch, ka BP (2002 CE): level 0 by definition. */
const EPOCH_KA = -0.052;

/** True relative sea level, metres above the mean sea level of 1993–2011, at an age in cal BP. */
export function trueLevel(age_cal_bp: number): number {
  const age_ka = age_cal_bp / 1000;
  const fallen = FALL_M * (1 - exp(-(age_ka - EPOCH_KA) / FALL_SCALE_KA));
  const x = (age_ka - TURN_KA) / TURN_WIDTH_KA;
  return fallen - RISE_M_PER_KA * TURN_WIDTH_KA * softplus(x);
}

/** True rate, mm/yr, positive for a rising sea: minus the derivative of the level by age (m/ka = mm/yr). */
export function trueRate(age_cal_bp: number): number {
  const age_ka = age_cal_bp / 1000;
  const fall = (FALL_M / FALL_SCALE_KA) * exp(-(age_ka - EPOCH_KA) / FALL_SCALE_KA);
  return RISE_M_PER_KA / (1 + exp(-(age_ka - TURN_KA) / TURN_WIDTH_KA)) - fall;
}

function softplus(x: number): number {
  return x > 0 ? x + log1p(exp(-x)) : log1p(exp(x));
}

/** Oldest and youngest age between which the true level rises without a pause, cal BP. */
export const RISING = { oldest: 9500, youngest: 5400 };

/** Age at which the rising sea stood at a level; null where it never did while rising. Bisection to 0.01 yr. */
export function ageOfRisingLevel(level_m: number): number | null {
  let older = RISING.oldest;
  let younger = RISING.youngest;
  if (level_m < trueLevel(older) || level_m > trueLevel(younger)) return null;
  while (older - younger > 0.01) {
    const middle = (older + younger) / 2;
    if (trueLevel(middle) < level_m) older = middle;
    else younger = middle;
  }
  return (older + younger) / 2;
}

/** True tide levels, metres above mean sea level; the tide is taken to have been the same throughout. */
export const TRUE_TIDE_M = {
  HAT: 1.62,
  MHWS: 1.3,
  MHW: 1.02,
  MHWN: 0.74,
  MTL: 0.01,
  MSL: 0,
  MLWN: -0.73,
  MLW: -1.0,
  MLWS: -1.27,
  LAT: -1.58,
} as const;

/** The highstand, and the youngest age with a level, cal BP. */
export const FALLING = { oldest: 4080, youngest: -73 };

/** Age at which the sea that fell since the highstand stood at a level; null where it never did. Bisection to 0.01 yr. */
export function ageOfFallingLevel(level_m: number): number | null {
  let older = FALLING.oldest;
  let younger = FALLING.youngest;
  if (level_m > trueLevel(older) || level_m < trueLevel(younger)) return null;
  while (older - younger > 0.01) {
    const middle = (older + younger) / 2;
    if (trueLevel(middle) > level_m) older = middle;
    else younger = middle;
  }
  return (older + younger) / 2;
}

/**
 * True tidal constants, phase lags on Greenwich: a semidiurnal tide whose waters and extremes are `TRUE_TIDE_M` within
 * the 5 cm the crew knows those levels to, and which was high on the pole on the first day at a quarter past twelve.
 */
export const TRUE_CONSTANTS = [
  { constituent: 'M2', amplitude_m: 0.99, phase_deg: 212 },
  { constituent: 'S2', amplitude_m: 0.285, phase_deg: 240 },
  { constituent: 'N2', amplitude_m: 0.13, phase_deg: 194 },
  { constituent: 'K2', amplitude_m: 0.075, phase_deg: 242 },
  { constituent: 'K1', amplitude_m: 0.075, phase_deg: 120 },
  { constituent: 'O1', amplitude_m: 0.05, phase_deg: 105 },
  { constituent: 'M4', amplitude_m: 0.02, phase_deg: 44 },
  { constituent: 'SA', amplitude_m: 0.03, phase_deg: 20 },
] as const;
