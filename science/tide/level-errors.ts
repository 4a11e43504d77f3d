/** How far errors of the constants and of the mean level move a tide level. */
import { cos, sin, square } from '@stillstand/science/base';
import { type Constituent, constituentNamed } from './constituent.ts';
import { designRow } from './design-row.ts';
import type { TideExtreme } from './extremes.ts';
import { constantErrors, type TidalConstant, type Tide } from './prediction.ts';

const RAD = Math.PI / 180;

/** One water in so many settles a mean over years; prime to the waters of a day and of a spring–neap cycle. */
const EVERY = 7;
const FEW = 1000;

/**
 * 1 sigma, m, of the mean height of groups of waters (of half-way between two means), for errors of the constants that
 * are independent of each other. At a high or low water the tide stands, so that the time does not move its height:
 * ∂h/∂H and ∂h/∂g are those of the prediction at that moment.
 */
export function waterSigmas({
  constants,
  mean_sigma_m = 0,
}: Tide): (...groups: (readonly Pick<TideExtreme, 'time_ms'>[])[]) => number {
  const uncertain = constants.flatMap((constant): { constant: TidalConstant; constituent: Constituent }[] => {
    const constituent = constituentNamed(constant.constituent);
    const { along_m, across_m } = constantErrors(constant);
    return constituent === null || along_m + across_m === 0 ? [] : [{ constant, constituent }];
  });
  const fill = designRow(uncertain.map(({ constituent }) => constituent));
  const row = new Float64Array(1 + 2 * uncertain.length);
  const known = new Map<object, Float64Array>();
  const meanRow = (waters: readonly Pick<TideExtreme, 'time_ms'>[]): Float64Array => {
    const found = known.get(waters);
    if (found !== undefined) return found;
    const every = waters.length > FEW ? EVERY : 1;
    const mean = new Float64Array(row.length);
    for (let i = 0; i < waters.length; i += every) {
      fill(waters[i]!.time_ms, row);
      for (let a = 0; a < row.length; a++) mean[a]! += row[a]!;
    }
    const n = mean[0]!;
    for (let a = 0; a < row.length; a++) mean[a]! /= n;
    known.set(waters, mean);
    return mean;
  };
  return (...groups) => {
    const means = groups.map(meanRow);
    const at = (a: number): number => means.reduce((sum, mean) => sum + mean[a]! / means.length, 0);
    return Math.sqrt(
      uncertain.reduce((sum, { constant }, k) => {
        const c = at(1 + 2 * k);
        const s = at(2 + 2 * k);
        const g = constant.phase_deg * RAD;
        const { along_m, across_m } = constantErrors(constant);
        return (
          sum + square((c * cos(g) + s * sin(g)) * along_m) + square((s * cos(g) - c * sin(g)) * across_m)
        );
      }, square(mean_sigma_m)),
    );
  };
}
