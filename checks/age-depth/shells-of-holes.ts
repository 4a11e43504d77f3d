/** Holes of known truth dated by shells whose reservoir offset has one unknown error, on the marine curve, as a laboratory would report them. */
import { type RandomStream, square } from '@stillstand/science/base';
import { type AgeConstraint, sharingOf } from '@stillstand/science/clocks';
import {
  type AgeDepthSettings,
  ageDepthDefaults,
  calibrate,
  type DatedHorizon,
  type HoleTogether,
  normalAge,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { drawHole, type SimulatedHole } from './simulated-hole.ts';

/** Accumulation between holes within a factor of 2.7 (95 %), so that all ages are on the curve. */
const settings: AgeDepthSettings = { ...ageDepthDefaults, accumulation_log_sd: 0.5 };

const ERROR_YR = 35;
const OFFSET_YR = 120;
export const OFFSET_SD_YR = 100;
const GROUP = 'shells';
const OTHER_CLOCK_SD_YR = 60;

export interface ShellHole {
  truth: SimulatedHole;
  together: HoleTogether;
}

interface Shells {
  hole: string;
  dates: number;
  /** The error, in its sds: of each date, as it is. */
  error: (date: number) => number;
  /** Dates of another clock, which is read as it is. */
  other?: readonly number[];
}

/** 5 m, depths off alike by 3 cm and each by 2 cm (1 sigma), no break; any date may be out of place, as the model has it. */
export function shellHole(marine: YearlyCurve, of: Shells, stream: RandomStream): ShellHole {
  for (let attempt = 0; attempt < 1000; attempt++) {
    const shared: { id: string; age: AgeConstraint }[] = [];
    let isWhole = true;
    const truth = drawHole(
      settings,
      {
        bottom_m: 5,
        dates: of.dates,
        sd_yr: 0,
        shift_m: 0.03,
        own_m: 0.02,
        breaks: 0,
        read: (i, t, own): DatedHorizon['age'] => {
          if (of.other?.includes(i) === true) {
            const read = normalAge(t + OTHER_CLOCK_SD_YR * own.normal(), OTHER_CLOCK_SD_YR);
            if ('density' in read) return read;
          }
          const at = Math.round(t) - marine.from_cal_bp;
          const expected = marine.c14_age[at];
          if (expected === undefined) isWhole = false;
          else {
            const spread = Math.sqrt(square(ERROR_YR) + square(marine.sigma_yr[at]!));
            const c14_age = expected + OFFSET_YR + OFFSET_SD_YR * of.error(i) + spread * own.normal();
            const stated = { c14_age, error_yr: ERROR_YR, offset_yr: OFFSET_YR, offset_sd_yr: OFFSET_SD_YR };
            const read = calibrate(stated, marine);
            if (read.kind === 'calibrated') {
              const age: AgeConstraint = {
                kind: 'radiocarbon',
                ...stated,
                curve: marine,
                delta_r_group: GROUP,
              };
              shared.push({ id: `D${i + 1}`, age });
              return read;
            }
            isWhole = false;
          }
          return { from_cal_bp: 0, density: Float64Array.of(1) };
        },
      },
      stream.split(attempt),
    );
    if (!isWhole) continue;
    const { hole } = of;
    return {
      truth,
      together: { hole, input: truth.input, settings, shared: sharingOf({ shared, settings }) },
    };
  }
  throw new Error('no hole of a thousand has all its ages on the curve');
}
