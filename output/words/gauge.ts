/** Annual means of a gauge, as they join a curve. */
import type { GaugeResult } from '@stillstand/campaign/results';
import type { LevelBlock } from '@stillstand/science/tide';
import { printed } from './number.ts';

export type GaugeMeans = Pick<GaugeResult, 'gauge' | 'zero_elevation_m' | 'sd_m' | 'correlation'> & {
  readonly blocks: readonly LevelBlock[];
};

/** One sentence or two: what was averaged, with which error, and what it informs. */
export function gaugeInWords({ gauge, zero_elevation_m, blocks, sd_m, correlation }: GaugeMeans): string {
  const years = blocks.reduce((sum, block) => sum + block.years, 0);
  const sigmas = blocks.map(({ sigma_m }) => 2 * sigma_m);
  const [least, most] = [Math.min(...sigmas), Math.max(...sigmas)].map((sigma) => printed(sigma, 3));
  const zero =
    zero_elevation_m !== null
      ? 'The error of its zero is one for all of them.'
      : 'Its zero is not related to the datum, so it informs the rate and not the level.';
  return (
    `Gauge ${gauge}: ${years} annual means from ${blocks[0]!.from_year_ce} to ${blocks.at(-1)!.to_year_ce} CE in ${blocks.length} blocks, ` +
    `±${least === most ? least : `${least} to ${most}`} m (2σ) each; a year scatters by ${printed(sd_m, 3)} m (1 sd), correlation with the next ${printed(correlation, 2)}. ${zero}`
  );
}
