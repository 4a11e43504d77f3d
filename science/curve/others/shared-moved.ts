/**
 * Shared errors that the curve moves farther than their sigma allows: a datum shift, a bench mark, the zero of a gauge, a
 * reservoir offset, a systematic error of dates, or the level held at present. All points that share one agree among themselves, so that none of them
 * disagrees with the others, and nothing else shows that what they share is wrong.
 */
import { normalQuantile } from '@stillstand/science/base';
import { groupOfDoses } from '@stillstand/science/dating';
import type { CurveResult } from '../result/result.ts';
import { NAMED_BY_CHANCE } from './disagreement.ts';

export interface MovedError {
  of: 'height' | 'reservoir offset' | 'dating error' | 'present';
  /** The group; of the present ''. */
  id: string;
  /** Posterior mean, and the 1 sigma it was stated with: m, of an offset 14C yr, of a dating error yr. */
  moved: number;
  sigma: number;
}

/** The level held at present is looked up at the reported age nearest its year, no farther off than this, yr. */
const NEAR_YR = 300;

type Shown = Pick<CurveResult, 'groups' | 'offsets' | 'ages_cal_bp' | 'level_m' | 'rate_mm_yr'> & {
  settings: Pick<CurveResult['settings'], 'tie'>;
};

const all = (curve: Shown): MovedError[] => {
  const present = atPresent(curve);
  return [
    ...curve.groups.map(
      ({ group, sigma_m, shift_m }): MovedError => ({
        of: 'height',
        id: group,
        moved: shift_m.mean,
        sigma: sigma_m,
      }),
    ),
    ...curve.offsets.map(
      ({ group, sigma_yr, shift_yr }): MovedError => ({
        of: groupOfDoses(group) === null ? 'reservoir offset' : 'dating error',
        id: groupOfDoses(group) ?? group,
        moved: shift_yr.mean,
        sigma: sigma_yr,
      }),
    ),
    ...(present === null ? [] : [present]),
  ].filter(({ sigma }) => sigma > 0);
};

/**
 * How many sigma off a shared error is named: 0.05 over the number of them, both sides. Under the model a posterior mean
 * scatters less than its error does, so that it is named less often than that.
 */
export const movedAbove = (curve: Shown): number =>
  normalQuantile(1 - NAMED_BY_CHANCE / (2 * Math.max(1, all(curve).length)));

/** The farthest off first, in sigma. */
export function movedErrors(curve: Shown): MovedError[] {
  const above = movedAbove(curve);
  const by = ({ moved, sigma }: MovedError): number => Math.abs(moved) / sigma;
  return all(curve)
    .filter((error) => by(error) > above)
    .sort((a, b) => by(b) - by(a));
}

/** The level in the year it is held at 0, from the nearest reported age by the rate there. */
function atPresent({ settings: { tie }, ages_cal_bp, level_m, rate_mm_yr }: Shown): MovedError | null {
  if (tie === null) return null;
  const age = 1950 - tie.year_ce;
  let nearest = -1;
  for (let i = 0; i < ages_cal_bp.length; i++)
    if (nearest === -1 || Math.abs(ages_cal_bp[i]! - age) < Math.abs(ages_cal_bp[nearest]! - age))
      nearest = i;
  if (nearest === -1 || Math.abs(ages_cal_bp[nearest]! - age) > NEAR_YR) return null;
  const moved = level_m.mean[nearest]! + (rate_mm_yr.mean[nearest]! * (ages_cal_bp[nearest]! - age)) / 1000;
  return { of: 'present', id: '', moved, sigma: tie.sd_m };
}
