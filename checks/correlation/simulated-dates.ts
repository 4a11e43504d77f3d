/** Dates of simulated holes, and what they say of the units: bounds on the age of each base, and ages to compare. */
import type { RandomStream } from '@stillstand/science/base';
import type { CorrelatedUnit } from '@stillstand/science/correlate';

export interface SimulatedDates {
  /** Dated units of a hole, at most. */
  per_hole: number;
  /** Whether ages are compared, beyond what they forbid. */
  areCompared: boolean;
  /** Share of the dates that are of another age: of old carbon or of roots, with an sd of 800 yr. */
  out?: number;
  /** A bed is so much younger one metre farther along the line, as at the edge of a rising sea, yr. */
  climbs_yr_per_m?: number;
}

const SIGMA_YR = 50;
const OUT_YR = 800;

/**
 * Beds follow each other in time, some hundred years each: the k-th begins where the one before it ends. The fill of a
 * channel, numbered from 1000 up, is as old as the beds next to it.
 */
export function datedUnits(
  units: readonly CorrelatedUnit[],
  beds: readonly number[],
  at_m: number,
  truth: SimulatedDates | undefined,
  stream: RandomStream,
  ofAll: RandomStream,
): CorrelatedUnit[] {
  if (truth === undefined) return [...units];
  const years = ofAll.split('years');
  const lasts = Array.from({ length: 20 }, (_, k) => 150 + 500 * years.split(k).uniform());
  const begins = (bed: number): number =>
    9000 -
    lasts.slice(0, Math.max(0, bed)).reduce((sum, each) => sum + each, 0) -
    (truth.climbs_yr_per_m ?? 0) * at_m;
  const timed = beds.map((bed, u) => {
    // A fill by the next bed above it that is none; the land below all beds is older than any.
    const next = beds.slice(0, u + 1).findLast((each) => each < 1000) ?? 12;
    return bed >= 1000 ? begins(next) + 20 : bed < 0 ? begins(0) + 500 : begins(bed);
  });
  const chosen = units
    .map((_, u) => ({ u, order: stream.uniform() }))
    .sort((x, y) => x.order - y.order)
    .slice(0, truth.per_hole)
    .map(({ u }) => u)
    .filter((u) => beds[u]! >= 0);
  const dates = chosen.map((u) => {
    // Somewhere in the unit: between its base and that of the one above it.
    const top = timed[u - 1] ?? timed[u]! - 100;
    const is = timed[u]! - stream.uniform() * Math.max(0, timed[u]! - top);
    const out = stream.uniform() < (truth.out ?? 0) ? OUT_YR * stream.normal() : 0;
    return { u, age: is + out + SIGMA_YR * stream.normal() };
  });
  return units.map((unit, i) => {
    const youngest = dates.filter(({ u }) => u <= i).map(({ age }) => age - 1.96 * SIGMA_YR);
    const oldest = dates.filter(({ u }) => u > i).map(({ age }) => age + 1.96 * SIGMA_YR);
    const own = dates.find(({ u }) => u === i);
    return {
      ...unit,
      properties:
        truth.areCompared && own !== undefined
          ? { ...unit.properties, ages: { value: own.age, sigma: SIGMA_YR } }
          : unit.properties,
      base_age:
        dates.length === 0
          ? null
          : {
              youngest_cal_bp: youngest.length === 0 ? null : Math.max(...youngest),
              oldest_cal_bp: oldest.length === 0 ? null : Math.min(...oldest),
            },
    };
  });
}
