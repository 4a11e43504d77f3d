/** A sample’s evidence of the sea. */
import {
  list,
  number,
  orNull,
  record,
  type ShapeValue,
  sigma,
  text,
  word,
  yesNo,
} from '@stillstand/science/shape';
import { component, rowId } from './parts.ts';

export const pointShape = record("a sample's claim on the sea", {
  row_id: rowId(),
  point: text('label of the point'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  site: orNull(text('site of its hole, or its own')),
  latitude_deg: orNull(number('latitude of its hole, WGS 84', 'deg')),
  longitude_deg: orNull(number('longitude of its hole, WGS 84', 'deg')),
  lab_code: orNull(text('determination its age comes from')),
  by_depth: yesNo('whether its age is that of its depth, by all clocks of its hole together'),
  kind: word('index: fixes the sea; terrestrial: the sea was below; marine: above', [
    'index',
    'terrestrial',
    'marine',
  ]),
  position: orNull(text('what lies below: basal, base of basal, intercalated')),
  indicator: orNull(text('kind of deposit')),
  status: word('used or not', ['accepted', 'rejected']),
  reason: orNull(text('why it is rejected')),
  elevation_m: number('elevation of the sample on the campaign datum', 'm'),
  reference_water_level_m: number(
    'index: middle of the indicative meaning; limiting: the tide level of the bound',
    'm',
  ),
  indicative_range_m: orNull(number('width of the indicative meaning; null for limiting points', 'm')),
  tidal_range: orNull(
    record('the range of the tide at its time, of today; null where that of today is used', {
      factor: number('tidal range then ÷ today, over the distribution of its age', ''),
      factor_sigma: sigma('1 sigma of the factor, shared by the points that use the same table', ''),
      age_sigma: sigma('1 sd of the factor over the distribution of its age', ''),
      lever_m: number(
        'what the factor scales: the tide level in the reference water level, above the mean level of today; below 0, the shared error acts the other way round',
        'm',
      ),
    }),
  ),
  rsl_m: number('index: relative sea level; terrestrial: the sea was below this; marine: above', 'm'),
  rsl_sigma_m: sigma('1 sigma of everything together', 'm'),
  components: list('parts of the height error', component),
  age: record('age of the point', {
    median_cal_bp: number('median', 'cal BP'),
    older95_cal_bp: number('older end of the 95 % range', 'cal BP'),
    younger95_cal_bp: number('younger end of the 95 % range', 'cal BP'),
  }),
});
export type PointResult = ShapeValue<typeof pointShape>;

export const undatedShape = record('a claim on the sea whose sample is not dated', {
  row_id: rowId(),
  point: text('label of the point'),
  sample: text('sample'),
  hole: orNull(text('hole')),
  rsl_m: number('relative sea level it would show', 'm'),
  rsl_sigma_m: sigma('1 sigma of everything together', 'm'),
});
/** An index point as it would be with a date. */
export type UndatedResult = ShapeValue<typeof undatedShape>;
