/** Ages of samples from all clocks of their hole together, for points that have their ages from there. */
import { type HoleHistory, traceId } from '@stillstand/campaign/results';
import type { HoleOfClocks } from '@stillstand/science/clocks';
import type { AgeOfHole } from '@stillstand/science/curve';
import { ageOfDraws, type Calibration, type NotCalibrated } from '@stillstand/science/dating';
import type { PlacedSample } from '../hole/placed-sample.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellByDepth } from '../words/dates.ts';
import type { Dated } from './dates.ts';
import { densityOf, distributionOf } from './distribution.ts';

/** A hole whose ages against depth were asked for. */
export interface HoleByDepth {
  clocks: HoleOfClocks;
  /** Null until they are computed. */
  history: Known<HoleHistory> | null;
  /** Of each sample with a date in it, the code of the date. */
  dateOf: ReadonlyMap<string, string>;
  /** The dates, by code. */
  dates: ReadonlyMap<string, Known<Dated>>;
}

/** Why a hole has none, where it was asked for. */
export type NotByDepth = string;

export interface AgeByDepth {
  dated: Known<Dated>;
  inCurve: AgeOfHole;
}

const ageOfSample = step(
  'age by depth',
  ({ history, sample }: { history: HoleHistory; sample: string }): Calibration | NotCalibrated => {
    const { samples, draws } = history;
    const at = samples.findIndex((each) => each.sample === sample);
    const rows = samples.length === 0 ? 0 : draws.age_cal_bp.length / samples.length;
    return ageOfDraws(
      Float64Array.from(
        { length: at < 0 ? 0 : rows },
        (_, row) => draws.age_cal_bp[row * samples.length + at]!,
      ),
    );
  },
);

/** Or why there is none, in words. */
export function ageByDepth(
  run: Runner,
  { clocks, dateOf, dates }: HoleByDepth,
  history: Known<HoleHistory>,
  sample: Known<PlacedSample>,
): AgeByDepth | string {
  const { hole } = clocks;
  const { sample: name, depth_draws, depth_m } = sample.value;
  if (depth_draws === null || depth_m === null) return `a depth of ${name} in ${hole}`;
  const age = run.untold(ageOfSample, { history, sample: run.plain(name) }).value;
  if (age.kind !== 'calibrated') return `ages of ${hole} that reach down to ${name}`;
  const own = dateOf.get(name) ?? null;
  const like = own === null ? [...dates.values()][0] : dates.get(own);
  if (like === undefined) return `a date in ${hole}`;
  const code = own ?? `${name} by depth`;
  const value: Dated = {
    age: densityOf(age),
    result: {
      ...like.value.result,
      ...distributionOf(age),
      lab_code: code,
      sample: name,
      hole,
    },
  };
  return {
    dated: run.part(traceId.date(`${name} by depth`), value, tellByDepth(name, hole, value.result), [
      history,
      sample,
    ]),
    inCurve: {
      kind: 'of_hole',
      clocks,
      depth_m: depth_draws,
      height_at_m: depth_m,
      date: own,
      alone_cal_bp: { mean: age.mean_cal_bp, sd_yr: age.sd_yr },
    },
  };
}
