/** A dating result and its calendar age. */
import {
  list,
  number,
  numbers,
  orNull,
  record,
  type ShapeValue,
  sigma,
  text,
  word,
} from '@stillstand/science/shape';
import { ageInterval, rowId } from './parts.ts';

export const dateShape = record('a dating result and its calendar age', {
  row_id: rowId(),
  lab_code: text('code given by the laboratory'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  method: text('dating method'),
  value: number(
    'radiocarbon: conventional age, 14C yr BP; otherwise calendar age before counts_from_ce',
    'yr',
  ),
  error: sigma('1 sigma of the value; half of the range where error_shape is uniform', 'yr'),
  age_from: word(
    'where value and error are from: stated by the laboratory; computed from measurements of the sample; median and sd of an age density',
    ['stated', 'measurements', 'density'],
  ),
  f14c: orNull(number('F14C: as reported, or of an age after 1950; null for all else', '')),
  f14c_sigma: orNull(sigma('1 sigma of F14C', '')),
  counts_from_ce: number('year that the value counts back from: 1950, or when it was measured', 'CE'),
  error_shape: word('normal, or uniform: every year within value ± error as probable', ['normal', 'uniform']),
  shared_sigma_yr: orNull(sigma('1 sigma of the part of the error that dates measured together share', 'yr')),
  shared_group: orNull(text('the dates that share it')),
  material: orNull(text('what was dated')),
  curve: orNull(text('calibration curve; null for calendar ages')),
  delta_r: number('reservoir offset added to the curve', '14C yr'),
  delta_r_error: sigma('1 sigma of the reservoir offset', '14C yr'),
  delta_r_group: orNull(text('determinations that share the error of one reservoir offset')),
  sequence: orNull(text('sequence with known gaps whose members give its age together; null: dated alone')),
  status: word('used or not', ['accepted', 'rejected']),
  reason: orNull(text('why it is rejected')),
  median_cal_bp: number('median', 'cal BP'),
  mean_cal_bp: number('mean', 'cal BP'),
  sd_yr: sigma('standard deviation', 'yr'),
  sets_68: list('68.3 % highest-density set, older first', ageInterval),
  sets_95: list('95.4 % highest-density set, older first', ageInterval),
  truncated: number('share of the distribution beyond the ends of the curve', '0 to 1'),
  from_cal_bp: number('age of the first entry of the density', 'cal BP'),
  density: numbers('density on a yearly grid: entry i stands at from_cal_bp + i', '1/yr'),
});
export type DateResult = ShapeValue<typeof dateShape>;
