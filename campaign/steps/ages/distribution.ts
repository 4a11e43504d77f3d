/** The age of a date by calendar years, as results and the curve have it. */
import type { DateResult } from '@stillstand/campaign/results';
import type { AgeConstraint } from '@stillstand/science/clocks';
import { type Calibration, calibrationSets } from '@stillstand/science/dating';

type Distribution = Omit<Calibration, 'kind'> & Pick<DateResult, 'sets_68' | 'sets_95'>;

/** What a result says of it, in the order of its shape. */
export const distributionOf = (age: Calibration): Distribution => ({
  median_cal_bp: age.median_cal_bp,
  mean_cal_bp: age.mean_cal_bp,
  sd_yr: age.sd_yr,
  sets_68: calibrationSets(age, 0.683),
  sets_95: calibrationSets(age, 0.954),
  truncated: age.truncated,
  from_cal_bp: age.from_cal_bp,
  density: age.density,
});

/** For the curve, year by year. */
export const densityOf = ({ from_cal_bp, density }: Calibration): AgeConstraint => ({
  kind: 'density',
  from_cal_bp,
  density,
});
