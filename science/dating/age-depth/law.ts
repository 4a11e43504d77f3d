/**
 * How fast sediment gathered, before any date is read. The time per metre of section j is x_j, and u = ln x,
 *
 *     u_j = μ + s·w_j,
 *
 * w an Ornstein–Uhlenbeck process in depth of unit sd and length L, taken as means over sections, begun anew below a
 * break; μ, ln s and ln L normal. What the sediments say of accumulation is in how metres count (`axis.ts`).
 */
import { expm1, log, type RandomStream, square } from '@stillstand/science/base';
import type { Hole } from './hole.ts';
import type { AgeDepthSettings } from './settings.ts';

const MM_PER_M = 1000;
/** Sections that differ by a smaller share than this are as thick as each other: their ends are rounded. */
const SAME = 1e-9;

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

/** By section: sd of w where memory begins again; its coefficient on the w above, and sd of what is new, where it goes on. */
export interface Memory {
  coefficient: Float64Array;
  sd: Float64Array;
  newSd: Float64Array;
  /** Sum of the logarithms of those that hold. */
  logs: number;
}

export const roomForMemory = (sections: number): Memory => ({
  coefficient: new Float64Array(sections),
  sd: new Float64Array(sections),
  newSd: new Float64Array(sections),
  logs: 0,
});

/**
 * Such that a section and the mean of many have the process's own variance: with r = section ÷ L the variance is
 * v = 2(r − 1 + e^−r)/r², the correlation of two alike φ = (2 − rv)/(2 + rv). So the number of sections is no part of the
 * model. Of two that differ it is √(φφ′): e^−d/L for thin ones, d between their middles.
 */
export function memory(
  { ground_thickness_m: thickness_m, isCut }: Pick<Hole, 'ground_thickness_m' | 'isCut'>,
  persistence_m: number,
  into: Memory,
): Memory {
  const { coefficient, sd, newSd } = into;
  let thickness = Number.NaN;
  let v = 0;
  let phi = 0;
  let width = 0;
  let logWidth = 0;
  into.logs = 0;
  // Sections in a row as thick as the one above them: most are, and then as the one above.
  let alike = 0;
  for (let j = 0; j < thickness_m.length; j++) {
    const above = v;
    const phiAbove = phi;
    alike++;
    if (!(Math.abs(thickness_m[j]! - thickness) < SAME * thickness)) {
      alike = 0;
      thickness = thickness_m[j]!;
      const r = thickness / persistence_m;
      // The closed form loses digits where sections are short.
      v = r < 1e-3 ? 1 - r / 3 : (2 * (r + expm1(-r))) / (r * r);
      phi = (2 - r * v) / (2 + r * v);
    }
    if (alike > 1) {
      sd[j] = sd[j - 1]!;
      coefficient[j] = coefficient[j - 1]!;
      newSd[j] = newSd[j - 1]!;
    } else {
      sd[j] = Math.sqrt(v);
      // Square of the correlation with the section above.
      const shared = j === 0 ? 0 : phi * phiAbove;
      coefficient[j] = j === 0 ? 0 : Math.sqrt((shared * v) / above);
      newSd[j] = Math.sqrt(v * (1 - shared));
    }
    const own = j === 0 || isCut[j] === 1 ? sd[j]! : newSd[j]!;
    if (own !== width) {
      width = own;
      logWidth = log(own);
    }
    into.logs += logWidth;
  }
  return into;
}

/** The u of all sections that have this new in them, in its sds. */
export function rebuild(
  u: Float64Array,
  isCut: Uint8Array,
  mean: number,
  variation: number,
  { coefficient, sd, newSd }: Memory,
  fresh: Float64Array,
): void {
  let w = 0;
  for (let j = 0; j < u.length; j++) {
    w = j === 0 || isCut[j] === 1 ? sd[j]! * fresh[j]! : coefficient[j]! * w + newSd[j]! * fresh[j]!;
    u[j] = mean + variation * w;
  }
}

/** Log density of the u of all sections, up to a constant; `isCut` where memory begins anew. */
export function logSections(
  u: Float64Array,
  isCut: Uint8Array,
  mean: number,
  variation: number,
  { coefficient, sd, newSd, logs }: Memory,
): number {
  let squares = 0;
  let before = 0;
  for (let j = 0; j < u.length; j++) {
    const w = (u[j]! - mean) / variation;
    const isNew = j === 0 || isCut[j] === 1;
    const z = isNew ? w / sd[j]! : (w - coefficient[j]! * before) / newSd[j]!;
    squares += z * z;
    before = w;
  }
  return -0.5 * squares - u.length * log(variation) - logs;
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
    const share = isNew ? 1 : 1 - coefficient[j]!;
    const known = isNew ? u[j]! : u[j]! - coefficient[j]! * u[j - 1]!;
    const width = variation * (isNew ? sd[j]! : newSd[j]!);
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
  { coefficient, sd, newSd, logs }: Memory,
  settings: AgeDepthSettings,
): number {
  // About the prior mean, so that no digits are lost.
  const centre = priorMean(settings);
  let precision = 0;
  let weighted = 0;
  let squares = 0;
  let before = 0;
  for (let j = 0; j < u.length; j++) {
    const own = u[j]! - centre;
    const isNew = j === 0 || isCut[j] === 1;
    const width = variation * (isNew ? sd[j]! : newSd[j]!);
    const z = (isNew ? own : own - coefficient[j]! * before) / width;
    const g = (isNew ? 1 : 1 - coefficient[j]!) / width;
    squares += z * z;
    weighted += z * g;
    precision += g * g;
    before = own;
  }
  precision += 1 / square(settings.accumulation_log_sd);
  const summed = squares - square(weighted) / precision + log(precision);
  return -0.5 * summed - u.length * log(variation) - logs;
}
