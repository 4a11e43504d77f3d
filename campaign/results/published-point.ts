/** A sea-level point of the literature, on the datum of the campaign. */
import { number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

export const publishedPointShape = record('a sea-level point of the literature; no curve is made of it', {
  row_id: rowId(),
  point: text('label of the point'),
  site: orNull(text('site it is drawn with; null: with the curve of the report')),
  source: text('publication'),
  latitude_deg: orNull(number('latitude, WGS 84', 'deg')),
  longitude_deg: orNull(number('longitude, WGS 84', 'deg')),
  kind: word('index: fixes the sea; terrestrial: the sea was below; marine: above', [
    'index',
    'terrestrial',
    'marine',
  ]),
  rsl_m: number('relative sea level on the campaign datum; of a limit its bound', 'm'),
  rsl_sigma_m: sigma('1 sigma of it, with that of the shift of its datum', 'm'),
  age_from: word('what the publication states: an age in calendar years, or one of radiocarbon', [
    'calendar',
    'radiocarbon',
  ]),
  calibration_curve: orNull(text('curve it was calibrated with here; null for a calendar age')),
  age: record('age of the point', {
    median_cal_bp: number('median', 'cal BP'),
    older95_cal_bp: number('older end of the 95 % range', 'cal BP'),
    younger95_cal_bp: number('younger end of the 95 % range', 'cal BP'),
  }),
});
export type PublishedPointResult = ShapeValue<typeof publishedPointShape>;
