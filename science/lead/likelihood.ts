/**
 * What a lead-210 profile says of the ages of its slices' ends, for use inside a history of the hole. Given the ages,
 * the time in each slice is known, and total activities are linear in supply P and supported activity s:
 *     total = P·(e^(−λt_top) − e^(−λt_bottom))/(λm) + s + error,  t before collection, m dry mass over area.
 * Both have normal priors and are integrated out exactly, so that a history needs no unknowns of the profile's own.
 * Constant supply is assumed, with a scatter of each slice's own; nothing is assumed of the sedimentation.
 */
import { exp, log, square } from '@stillstand/science/base';
import { columnOf, massOf } from './column.ts';
import { type LeadFault, type LeadProfile, type LeadSettings, leadDefaults } from './profile.ts';
import { SAME_M, usableSlices } from './slices.ts';
import { middle, spread, supportedOf } from './supported.ts';

export interface LeadPrior {
  /** Supply, Bq/m²/yr; normal. Marshes and shelves have 20 to 500 (from memory). */
  supply_bq_m2_yr: { mean: number; sigma: number };
  /** 1 sigma of a slice's supply about that of the profile, as a share of the prior mean (our choice). */
  scatter: number;
}

export const leadPriorDefaults: LeadPrior = { supply_bq_m2_yr: { mean: 200, sigma: 200 }, scatter: 0.1 };

export interface LeadLikelihood {
  /** Depths whose ages it asks for, m, from the top down: every end of a slice that has lead-210 and a density. */
  ends_m: Float64Array;
  /**
   * Log density of the activities given the ages of those ends, cal BP. −Infinity where an end is younger than the
   * collection or the ages fall downwards.
   */
  logLikelihood: (ages: Float64Array) => number;
}

interface Read {
  /** Numbers of its ends. */
  top: number;
  bottom: number;
  mass_kg_m2: number;
  /** Less the supported activity where that was measured in the slice, Bq/kg. */
  activity: number;
  variance: number;
}

/** Null where there is no slice to read, or no date of collection: the faults say so. */
export function leadLikelihood(
  profile: LeadProfile,
  prior: LeadPrior = leadPriorDefaults,
  { half_life_yr }: Pick<LeadSettings, 'half_life_yr'> = leadDefaults,
): { likelihood: LeadLikelihood | null; faults: LeadFault[] } {
  const { used, faults } = usableSlices(profile);
  const { supported, faults: aboutSupported } = supportedOf(used, profile.supported);
  const all = [...faults, ...aboutSupported];
  // A tail is not cut off: given the ages, its slices say what the supported activity is.
  const { column } = columnOf(used, { tail: [] });
  const { collected_ce } = profile;
  if (supported === null || column === null || collected_ce === null)
    return { likelihood: null, faults: all };
  const eachHasOwn = supported.from === 'each_slice';
  const measured = column.cells.filter(
    ({ slice, lead, density_g_cm3 }) => slice !== null && slice === lead[0] && density_g_cm3 !== null,
  );
  const ends_m = endsOf(measured);
  const numberOf = (depth_m: number): number => ends_m.findLastIndex((end) => end <= depth_m);
  const read = measured.map((cell): Read => {
    const { total, supported: own } = used[cell.slice!]!;
    const mine = own ?? supported;
    return {
      top: numberOf(cell.top_m),
      bottom: numberOf(cell.bottom_m),
      mass_kg_m2: massOf(cell),
      activity: middle(total!) - (eachHasOwn ? middle(mine) : 0),
      variance: square(spread(total!)) + (eachHasOwn ? square(spread(mine)) : 0),
    };
  });
  if (read.length === 0) return { likelihood: null, faults: all };
  // Of the tail only a weak prior: its slices are among the activities.
  const sigma = supported.from === 'tail' ? supported.bq_kg : supported.sigma_bq_kg;
  const ofSupported = eachHasOwn ? { mean: 0, sigma: 0 } : { mean: supported.bq_kg, sigma };
  const lambda = Math.LN2 / half_life_yr.value;
  const youngest = 1950 - collected_ce;
  const logLikelihood = (ages: Float64Array): number => {
    const shares = new Float64Array(read.length);
    for (const [i, { top, bottom, mass_kg_m2 }] of read.entries()) {
      const from = ages[top]! - youngest;
      const to = ages[bottom]! - youngest;
      if (!(from >= 0 && to >= from)) return -Infinity;
      shares[i] = (exp(-lambda * from) - exp(-lambda * to)) / (lambda * mass_kg_m2);
    }
    return density(read, shares, prior, ofSupported);
  };
  return { likelihood: { ends_m, logLikelihood }, faults: all };
}

/** Ends of cells, from the top down; two within half a millimetre are one, the upper. */
function endsOf(cells: readonly { top_m: number; bottom_m: number }[]): Float64Array {
  const all = Float64Array.from(cells.flatMap(({ top_m, bottom_m }) => [top_m, bottom_m])).sort();
  let last = -Infinity;
  return all.filter((end) => {
    if (end - last <= SAME_M) return false;
    last = end;
    return true;
  });
}

/**
 * Log normal density of activities with mean P̄g + s̄ and covariance D + σ_P²gg′ + σ_s²11′, by the rank-two update
 * (matrix determinant and inversion lemmas): sums over the slices and one 2 × 2 system.
 */
function density(
  read: readonly Read[],
  shares: Float64Array,
  { supply_bq_m2_yr, scatter }: LeadPrior,
  supported: { mean: number; sigma: number },
): number {
  const [p, s] = [supply_bq_m2_yr, supported];
  let [gg, g1, oneOne, gr, r1, rr, logs] = [0, 0, 0, 0, 0, 0, 0];
  for (const [i, { activity, variance }] of read.entries()) {
    const g = shares[i]!;
    const own = variance + square(scatter * p.mean * g);
    const r = activity - p.mean * g - s.mean;
    gg += (g * g) / own;
    g1 += g / own;
    oneOne += 1 / own;
    gr += (g * r) / own;
    r1 += r / own;
    rr += (r * r) / own;
    logs += log(own);
  }
  // I + SᵀUᵀD⁻¹US with S the prior sigmas: well scaled where a sigma is 0.
  const a = 1 + square(p.sigma) * gg;
  const b = p.sigma * s.sigma * g1;
  const d = 1 + square(s.sigma) * oneOne;
  const determinant = a * d - b * b;
  const [u, v] = [p.sigma * gr, s.sigma * r1];
  const taken = (d * u * u - 2 * b * u * v + a * v * v) / determinant;
  return -0.5 * (read.length * log(2 * Math.PI) + logs + log(determinant) + rr - taken);
}
