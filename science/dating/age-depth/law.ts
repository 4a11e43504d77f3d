/**
 * How fast sediment gathered, before any date is read. The time per metre of section j is x_j, and u = ln x,
 *
 *     u_j = μ + s·w_j,
 *
 * w an Ornstein–Uhlenbeck process in depth of unit sd and length L, taken as means over sections, begun anew below a
 * break; μ, ln s and ln L normal.
 */
import { expm1, log, type RandomStream, square } from '@stillstand/science/base';
import type { AgeDepthSettings } from './settings.ts';

const MM_PER_M = 1000;

/** μ of ln(yr/m), ln s, ln(L in m). */
export interface Law {
  mean: number;
  log_variation: number;
  log_persistence: number;
}

export const priorMean = (s: AgeDepthSettings): number => log(MM_PER_M / s.accumulation_mm_yr);

export function drawLaw(settings: AgeDepthSettings, stream: RandomStream): Law {
  const mean = priorMean(settings) + settings.accumulation_log_sd * stream.normal();
  const log_variation = log(settings.variation) + settings.variation_log_sd * stream.normal();
  const log_persistence = log(settings.persistence_m) + settings.persistence_log_sd * stream.normal();
  return { mean, log_variation, log_persistence };
}

/** Log density of ln s and ln L, up to a constant. */
export function logPriorOfLaw(
  settings: AgeDepthSettings,
  log_variation: number,
  log_persistence: number,
): number {
  const zs = (log_variation - log(settings.variation)) / settings.variation_log_sd;
  const zl = (log_persistence - log(settings.persistence_m)) / settings.persistence_log_sd;
  return -0.5 * (zs * zs + zl * zl);
}

/** From section to section w is a first-order autoregression: coefficient, sd of the first, sd of what is new. */
export interface Memory {
  coefficient: number;
  sd: number;
  newSd: number;
}

/**
 * Such that a section and the mean of many have the process's own variance: with r = section ÷ L the variance is
 * v = 2(r − 1 + e^−r)/r², the coefficient (2 − rv)/(2 + rv). So the number of sections is no part of the model.
 */
export function memory(section_m: number, persistence_m: number): Memory {
  const r = section_m / persistence_m;
  // The closed form loses digits where sections are short.
  const v = r < 1e-3 ? 1 - r / 3 : (2 * (r + expm1(-r))) / (r * r);
  const coefficient = (2 - r * v) / (2 + r * v);
  return { coefficient, sd: Math.sqrt(v), newSd: (Math.sqrt(8 * r) * v) / (2 + r * v) };
}

/** Log density of the u of all sections, up to a constant; `isCut` where memory begins anew. */
export function logSections(
  u: Float64Array,
  isCut: Uint8Array,
  mean: number,
  variation: number,
  { coefficient, sd, newSd }: Memory,
): number {
  let squares = 0;
  let fresh = 0;
  let before = 0;
  for (let j = 0; j < u.length; j++) {
    const w = (u[j]! - mean) / variation;
    const isNew = j === 0 || isCut[j] === 1;
    const z = isNew ? w / sd : (w - coefficient * before) / newSd;
    squares += z * z;
    if (isNew) fresh++;
    before = w;
  }
  return -0.5 * squares - u.length * log(variation) - fresh * log(sd) - (u.length - fresh) * log(newSd);
}

/** μ given the sections: exactly normal. */
export function drawMean(
  u: Float64Array,
  isCut: Uint8Array,
  variation: number,
  { coefficient, sd, newSd }: Memory,
  settings: AgeDepthSettings,
  stream: RandomStream,
): number {
  let precision = 1 / square(settings.accumulation_log_sd);
  let weighted = priorMean(settings) * precision;
  for (let j = 0; j < u.length; j++) {
    const isNew = j === 0 || isCut[j] === 1;
    const share = isNew ? 1 : 1 - coefficient;
    const known = isNew ? u[j]! : u[j]! - coefficient * u[j - 1]!;
    const width = variation * (isNew ? sd : newSd);
    precision += square(share / width);
    weighted += (share * known) / (width * width);
  }
  return weighted / precision + stream.normal() / Math.sqrt(precision);
}

/** Log density of the u of all sections with μ summed out over its prior, up to a constant. */
export function logSectionsOfAnyMean(
  u: Float64Array,
  isCut: Uint8Array,
  variation: number,
  { coefficient, sd, newSd }: Memory,
  settings: AgeDepthSettings,
): number {
  // About the prior mean, so that no digits are lost.
  const centre = priorMean(settings);
  let precision = 0;
  let weighted = 0;
  let squares = 0;
  let fresh = 0;
  let before = 0;
  const perFirst = 1 / (variation * sd);
  const perNew = 1 / (variation * newSd);
  for (let j = 0; j < u.length; j++) {
    const own = u[j]! - centre;
    const isNew = j === 0 || isCut[j] === 1;
    const z = isNew ? own * perFirst : (own - coefficient * before) * perNew;
    const g = isNew ? perFirst : (1 - coefficient) * perNew;
    squares += z * z;
    weighted += z * g;
    precision += g * g;
    if (isNew) fresh++;
    before = own;
  }
  precision += 1 / square(settings.accumulation_log_sd);
  return (
    -0.5 * (squares - square(weighted) / precision + log(precision)) -
    u.length * log(variation) -
    fresh * log(sd) -
    (u.length - fresh) * log(newSd)
  );
}
