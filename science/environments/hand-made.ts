/** Columns made by hand, for the tests. */
import type { AgedColumn, AgedLayer } from './column.ts';

/** One number for all draws, or one of each. */
type Draws = number | readonly number[];

export interface MadeLayer {
  environment: string | null;
  /** Depths and ages of its places, from its top down. */
  depth_m: readonly Draws[];
  age_cal_bp: readonly Draws[];
  isAtOnce?: boolean;
}

const drawn = (of: Draws, draws: number): Float64Array =>
  typeof of === 'number' ? new Float64Array(draws).fill(of) : Float64Array.from(of);

/** Layers are named by their number from the top: 1, 2, … */
export const column = (
  hole: string,
  layers: readonly MadeLayer[],
  { along_m = 0, ground_m = 0, draws = 1 }: { along_m?: number; ground_m?: number; draws?: number } = {},
): AgedColumn => ({
  hole,
  along_m,
  ground_m: new Float64Array(draws).fill(ground_m),
  layers: layers.map(
    ({ environment, depth_m, age_cal_bp, isAtOnce = false }, i): AgedLayer => ({
      id: `${i + 1}`,
      environment,
      isAtOnce,
      levels: depth_m.map((depth, n) => ({
        depth_m: drawn(depth, draws),
        age_cal_bp: drawn(age_cal_bp[n]!, draws),
      })),
    }),
  ),
});
