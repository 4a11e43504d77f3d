/**
 * Elevations of contacts between holes: each a rough surface about its own mean, which has part of its ups and downs in
 * common with the others. Between two places the elevation of a contact differs by N(0, 2·roughness·range·(1 − e^(−distance/range))),
 * of which the share `common` is one for all contacts; each place has relief of its own. Roughness, share and relief are
 * what the holes say, on a grid (kriging with its parameters unknown: Handcock & Stein 1993, Technometrics 35:403–410, from
 * memory).
 */
import { cholesky, exp, log, normalCdf, solveCholesky, square } from '@stillstand/science/base';
import type { BelowSettings } from './settings.ts';
import { sharesOf } from './shares.ts';

/** An elevation of a contact at a place; contacts and places by number. */
export interface SeenAt {
  contact: number;
  place: number;
  elevation_m: number;
  sigma_m: number;
}

/** Normal distributions of one elevation, each with its weight; the weights sum to 1. */
export type Mixture = readonly { weight: number; mean: number; sd: number }[];

export interface Surfaces {
  /** Elevation of a contact at a place, m, as a base there would be seen without error. */
  at(place: number, contact: number): Mixture;
  /** The elevation numbered k of those seen, as all others say it. */
  without(k: number): Mixture;
}

interface Fitted {
  /** Log likelihood, up to a constant. */
  logWeight: number;
  covariance(contactA: number, placeA: number, contactB: number, placeB: number): number;
  variance(place: number): number;
  factor: Float64Array;
  solved: Float64Array;
}

/** In a plane, m, about where it is asked. */
export interface Place {
  east_m: number;
  north_m: number;
}

/** `places` by number. `seen`: one at least. */
export function surfaces(
  seen: readonly SeenAt[],
  places: readonly Place[],
  settings: BelowSettings,
): Surfaces {
  const n = seen.length;
  const centre = seen.reduce((sum, { elevation_m }) => sum + elevation_m, 0) / n;
  const off = Float64Array.from(seen, ({ elevation_m }) => elevation_m - centre);
  const level = square(settings.level_sd_m);
  const [dip, ownDip] = [square(settings.dip), square(settings.own_dip)];
  const distance_m = places.map((a) =>
    places.map((b) => Math.sqrt(square(a.east_m - b.east_m) + square(a.north_m - b.north_m))),
  );
  const product = places.map((a) => places.map((b) => a.east_m * b.east_m + a.north_m * b.north_m));
  const fitted: Fitted[] = [];
  for (const roughness of settings.roughness_m2_m)
    for (const common of settings.common) {
      const sill = roughness * settings.range_m;
      const covariance = (contactA: number, placeA: number, contactB: number, placeB: number): number => {
        const near = sill * exp(-distance_m[placeA]![placeB]! / settings.range_m);
        const tilt = product[placeA]![placeB]!;
        return contactA === contactB
          ? level + near + (dip + ownDip) * tilt
          : 0.5 * level + common * near + dip * tilt;
      };
      const plain = Float64Array.from({ length: n * n }, (_, at) => {
        const [a, b] = [seen[Math.floor(at / n)]!, seen[at % n]!];
        return covariance(a.contact, a.place, b.contact, b.place);
      });
      for (const relief of settings.relief_m) {
        const all = plain.slice();
        for (let i = 0; i < n; i++)
          all[i * n + i] = all[i * n + i]! + square(seen[i]!.sigma_m) + square(relief);
        const factor = cholesky(all, n);
        if (factor === null) continue;
        const solved = solveCholesky(factor, off, n);
        let likelihood = 0;
        for (let i = 0; i < n; i++) likelihood -= 0.5 * off[i]! * solved[i]! + log(factor[i * n + i]!);
        fitted.push({
          logWeight: likelihood,
          covariance,
          variance: (place) => covariance(0, place, 0, place) + square(relief),
          factor,
          solved,
        });
      }
    }
  const shares = sharesOf(fitted.map(({ logWeight }) => logWeight));
  const kept = fitted
    .map((each, k) => ({ ...each, weight: shares[k]! }))
    .filter(({ weight }) => weight > 1e-4);
  /** Odd ones are as often as that, and so many times as far off. */
  const withOdd = (weight: number, mean: number, variance: number): Mixture[number][] => {
    const sd = Math.sqrt(Math.max(1e-6, variance));
    return [
      { weight: weight * (1 - settings.odd), mean, sd },
      { weight: weight * settings.odd, mean, sd: settings.odd_times * sd },
    ];
  };
  return {
    at: (place, contact) =>
      kept.flatMap(({ weight, covariance, variance, factor, solved }) => {
        const to = Float64Array.from(seen, (each) => covariance(contact, place, each.contact, each.place));
        const by = solveCholesky(factor, to, n);
        let [mean, left] = [centre, variance(place)];
        for (let i = 0; i < n; i++) {
          mean += to[i]! * solved[i]!;
          left -= to[i]! * by[i]!;
        }
        return withOdd(weight, mean, left);
      }),
    without: (k) => {
      // From the inverse of the covariance of all (Dubrule 1983, Math. Geol. 15:687–699, from memory); what makes the others
      // probable is what makes all probable, less this one given the others.
      const alone = new Float64Array(n);
      alone[k] = 1;
      const parts = fitted.map(({ logWeight, factor, solved }) => {
        const variance = 1 / solveCholesky(factor, alone, n)[k]!;
        const off_m = solved[k]! * variance;
        return {
          mean: seen[k]!.elevation_m - off_m,
          variance,
          logWeight: logWeight + 0.5 * (log(variance) + square(off_m) / variance),
        };
      });
      const weights = sharesOf(parts.map((part) => part.logWeight));
      return parts.flatMap(({ mean, variance }, i) => withOdd(weights[i]!, mean, variance));
    },
  };
}

/** Probability that the elevation is below x. */
export function below(mixture: Mixture, x: number): number {
  let [sum, whole] = [0, 0];
  for (const { weight, mean, sd } of mixture) {
    sum += weight * normalCdf((x - mean) / sd);
    whole += weight;
  }
  return sum / whole;
}

/** The elevation that p of the distribution is below, of what of it is below a bound. */
export function quantileBelow(mixture: Mixture, p: number, bound_m: number): number {
  const wanted = p * below(mixture, bound_m);
  let low = Math.min(...mixture.map(({ mean, sd }) => mean - 8 * sd));
  let high = Math.min(bound_m, Math.max(...mixture.map(({ mean, sd }) => mean + 8 * sd)));
  low = Math.min(low, high - 1);
  for (let k = 0; k < 60; k++) {
    const middle = 0.5 * (low + high);
    if (below(mixture, middle) < wanted) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
