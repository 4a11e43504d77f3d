/**
 * Levels of a short record brought to the tidal epoch by a reference station that was read at the same time: NOAA 2003,
 * Computational Techniques for Tidal Datums Handbook, NOS CO-OPS 2 (range-ratio relation from its glossary; the rest
 * from memory).
 */
import type { MeanLevels } from './levels.ts';

/** `standard`: for mixed tides; `range_ratio` (modified): for semidiurnal and diurnal ones. */
export type ComparisonMethod = 'standard' | 'range_ratio';

export type ComparedLevels = Pick<
  MeanLevels,
  'MHW_m' | 'MLW_m' | 'MHHW_m' | 'MLLW_m' | 'MTL_m' | 'DTL_m' | 'MN_m' | 'GT_m' | 'DHQ_m' | 'DLQ_m'
>;

/**
 * `here` and `there`: means of the same days at the place and at the reference station, each on its own zero;
 * `accepted`: levels of the reference station over the epoch, on the zero of `there`. Levels on the zero of `here`.
 * Half levels move by the same step, ranges and inequalities by the same share.
 */
export function compareSimultaneously(
  here: ComparedLevels,
  there: ComparedLevels,
  accepted: ComparedLevels,
  method: ComparisonMethod,
): ComparedLevels {
  const MTL_m = here.MTL_m + (accepted.MTL_m - there.MTL_m);
  const DTL_m = here.DTL_m + (accepted.DTL_m - there.DTL_m);
  const share = (part: 'MN_m' | 'GT_m' | 'DHQ_m' | 'DLQ_m'): number =>
    there[part] === 0 ? here[part] : (here[part] * accepted[part]) / there[part];
  const MN_m = share('MN_m');
  const MHW_m = MTL_m + MN_m / 2;
  const MLW_m = MTL_m - MN_m / 2;
  if (method === 'range_ratio') {
    const GT_m = share('GT_m');
    const MHHW_m = DTL_m + GT_m / 2;
    const MLLW_m = DTL_m - GT_m / 2;
    return {
      MHW_m,
      MLW_m,
      MHHW_m,
      MLLW_m,
      MTL_m,
      DTL_m,
      MN_m,
      GT_m,
      DHQ_m: MHHW_m - MHW_m,
      DLQ_m: MLW_m - MLLW_m,
    };
  }
  const DHQ_m = share('DHQ_m');
  const DLQ_m = share('DLQ_m');
  const MHHW_m = MHW_m + DHQ_m;
  const MLLW_m = MLW_m - DLQ_m;
  return {
    MHW_m,
    MLW_m,
    MHHW_m,
    MLLW_m,
    MTL_m,
    DTL_m: (MHHW_m + MLLW_m) / 2,
    MN_m,
    GT_m: MHHW_m - MLLW_m,
    DHQ_m,
    DLQ_m,
  };
}
