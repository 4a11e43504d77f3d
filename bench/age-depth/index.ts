/** How long ages against depth take for growing numbers of dates in one hole, with the settings of the product. */
import { exp, randomStream } from '@stillstand/science/base';
import {
  type AgeDepthInput,
  ageDepth,
  ageDepthDefaults,
  type DatedHorizon,
} from '@stillstand/science/dating';

export interface AgeDepthBench {
  dates: number;
  /** Whole computation, one thread. */
  seconds: number;
  sweeps: number;
  converged: boolean;
  rhat_max: number;
  ess_bulk_min: number;
  ess_per_second: number;
}

export function benchAgeDepth(sizes: readonly number[] = [10, 30, 100]): AgeDepthBench[] {
  // The first warms the engine up.
  ageDepth(steadyHole(10, 100), ageDepthDefaults, randomStream(1));
  return sizes.map((dates) => {
    const input = steadyHole(dates, 400);
    const started = performance.now();
    const result = ageDepth(input, ageDepthDefaults, randomStream(dates));
    const seconds = (performance.now() - started) / 1000;
    if (result.kind !== 'age_depth') throw new Error(result.reason);
    const { sweeps, converged, rhat_max, ess_bulk_min } = result.diagnostics;
    return {
      dates,
      seconds,
      sweeps,
      converged,
      rhat_max,
      ess_bulk_min,
      ess_per_second: ess_bulk_min / seconds,
    };
  });
}

/**
 * A hole of 8 m at 1.2 mm/yr, seed 71, dates of 60 yr evenly down it; depths err by 3 cm together and 1 cm apart, in so many
 * states, where there is more than one.
 */
export function steadyHole(
  dates: number,
  states: number,
): AgeDepthInput & { surface: { age_cal_bp: number; sd_yr: number } } {
  const stream = randomStream(71).split(dates);
  const shift = Float64Array.from({ length: states }, () => (states === 1 ? 0 : 0.03 * stream.normal()));
  const bottom_m = 8;
  return {
    horizons: Array.from({ length: dates }, (_, i): DatedHorizon => {
      const depth = (bottom_m * (i + 0.2 + 0.6 * stream.uniform())) / dates;
      const depth_m = shift.map((s) =>
        Math.max(0.001, depth + s + (states === 1 ? 0 : 0.01 * stream.normal())),
      );
      const mean = Math.round(-60 + depth / 0.0012 + 60 * stream.normal());
      const density = Float64Array.from({ length: 721 }, (_, y) => exp(-0.5 * ((y - 360) / 60) ** 2));
      return { id: `D${i + 1}`, depth_m, age: { from_cal_bp: mean - 360, density } };
    }),
    surface: { age_cal_bp: -60, sd_yr: 2 },
    breaks: [],
    bottom_m,
  };
}
