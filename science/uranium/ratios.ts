/** What a uranium-series age is computed from. */
import type { Finding } from '@stillstand/science/dating';

/** 1 sigma. */
export interface Ratio {
  value: number;
  sd: number;
}

/** Activity ratios, as measured. */
export interface ActivityRatios {
  th230_u238: Ratio;
  u234_u238: Ratio;
  /** Correlation of the errors of the two; 0 where it is not known. */
  correlation: number;
  /** Activity ratio; needed for a correction, and to say whether one is wanted. */
  th230_th232: number | null;
}

/** 230Th/232Th of the detritus when the sample formed, atomic, in millionths, 1 sigma. */
export interface InitialThorium {
  atomic_ppm: number;
  sd_ppm: number;
}

/** Below so much 230Th for each 232Th (activity) detritus counts (common practice, no source). */
const CLEAN = 100;
/** No carbonate has more: 2 is rare in the sea, 10 in ground water (common practice, no source). */
const MOST_U234 = 15;

/** What no age can be computed from. */
export function faultsOf(
  { th230_u238, u234_u238, correlation, th230_th232 }: ActivityRatios,
  initial: InitialThorium | null,
): Finding[] {
  const faults: (Finding | null)[] = [
    ratioFault('th230_u238', th230_u238, 10),
    ratioFault('u234_u238', u234_u238, MOST_U234),
    correlation > -1 && correlation < 1
      ? null
      : {
          of: 'correlation',
          found: String(correlation),
          expected: 'a number between −1 and 1',
          fix: 'Correct it, or leave it out for 0.',
        },
    th230_th232 === null || (th230_th232 > 0 && th230_th232 < Infinity)
      ? null
      : {
          of: 'th230_th232',
          found: String(th230_th232),
          expected: 'an activity ratio above 0',
          fix: 'Correct it, or leave it out where no 232Th was found.',
        },
    initial === null || (initial.atomic_ppm > 0 && initial.atomic_ppm < 1000 && initial.sd_ppm >= 0)
      ? null
      : {
          of: 'initial_thorium',
          found: `${initial.atomic_ppm} ± ${initial.sd_ppm} ppm`,
          expected: 'above 0 and below 1,000 ppm (atomic), such as 4.4 ± 2.2',
          fix: 'State the atomic ratio in millionths: 4.4 for 4.4e−6.',
        },
    initial !== null && th230_th232 === null
      ? {
          of: 'th230_th232',
          found: 'none',
          expected: 'the measured 230Th/232Th activity ratio, for the correction asked for',
          fix: 'State it, or leave the initial thorium out.',
        }
      : null,
  ];
  return faults.filter((fault) => fault !== null);
}

function ratioFault(of: string, { value, sd }: Ratio, most: number): Finding | null {
  if (value > 0 && value < most && sd > 0 && sd < Infinity) return null;
  return {
    of,
    found: `${value} ± ${sd}`,
    expected: `an activity ratio above 0 and below ${most}, with an error above 0`,
    fix: 'Correct it; δ234U and atomic ratios are other numbers than activity ratios.',
  };
}

/** Said of an age without a correction that detritus may have moved. */
export function detritusDoubt(
  { th230_th232 }: ActivityRatios,
  initial: InitialThorium | null,
): Finding | null {
  if (initial !== null || th230_th232 === null || th230_th232 >= CLEAN) return null;
  return {
    of: 'th230_th232',
    found: `${th230_th232}, and no correction for detritus`,
    expected: `${CLEAN} or more without one`,
    fix: 'State the initial 230Th/232Th with its error: without it the age is too old.',
  };
}
