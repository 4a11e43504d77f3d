/** How far errors of the constants and of the mean level move a tide level. */
import { cos, sin, square } from '@stillstand/science/base';
import { type Constituent, constituentNamed } from './constituent.ts';
import { designRow } from './design-row.ts';
import type { TideExtreme } from './extremes.ts';
import { constantErrors, type TidalConstant, type Tide } from './prediction.ts';

const RAD = Math.PI / 180;

/**
 * 1 sigma, m, of the mean height of waters (of half-way between the means of two groups), for errors of the constants that are independent of each
 * other. At a high or low water the tide stands, so that the time does not move its height: ∂h/∂H and ∂h/∂g are those
 * of the prediction at that moment.
 */
export function sigmaOfWaters(
  { constants, mean_sigma_m = 0 }: Tide,
  ...groups: (readonly Pick<TideExtreme, 'time_ms'>[])[]
): number {
  const uncertain = constants.flatMap((constant): { constant: TidalConstant; constituent: Constituent }[] => {
    const constituent = constituentNamed(constant.constituent);
    const { along_m, across_m } = constantErrors(constant);
    return constituent === null || along_m + across_m === 0 ? [] : [{ constant, constituent }];
  });
  if (uncertain.length === 0) return mean_sigma_m;
  const fill = designRow(uncertain.map(({ constituent }) => constituent));
  const row = new Float64Array(1 + 2 * uncertain.length);
  const sums = new Float64Array(row.length);
  for (const waters of groups) {
    const weight = 1 / (groups.length * waters.length);
    for (const { time_ms } of waters) {
      fill(time_ms, row);
      for (let a = 1; a < row.length; a++) sums[a]! += weight * row[a]!;
    }
  }
  return Math.sqrt(
    uncertain.reduce((sum, { constant }, k) => {
      const c = sums[1 + 2 * k]!;
      const s = sums[2 + 2 * k]!;
      const g = constant.phase_deg * RAD;
      const { along_m, across_m } = constantErrors(constant);
      return sum + square((c * cos(g) + s * sin(g)) * along_m) + square((s * cos(g) - c * sin(g)) * across_m);
    }, square(mean_sigma_m)),
  );
}
