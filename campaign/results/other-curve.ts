/** Another curve, or a prediction of a part of the level, beside the curve of the campaign. */
import { besideShape } from '@stillstand/science/curve';
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';

export const otherCurveShape = record('another curve, or a prediction', {
  name: text('its name in the table other_curves'),
  use: word('whether it is another curve that is compared with, or a prediction that is subtracted', [
    'compare',
    'subtract',
  ]),
  source: orNull(text('where it comes from')),
  datum: orNull(text('datum of its levels as recorded; null where none is named, and of a prediction')),
  shift_sigma_m: orNull(
    sigma(
      'the shift of its levels to the datum of the campaign, one for all of them; null where nothing does',
      'm',
    ),
  ),
  levels: list(
    'its levels, the oldest first',
    record('one level', {
      row_id: text('row of the table other_curves'),
      age_cal_bp: number('age', 'cal BP'),
      level_m: number('level, on the datum of the campaign where a shift leads there', 'm'),
      level_sigma_m: orNull(sigma('the level; null where none is stated', 'm')),
    }),
  ),
  ...besideShape,
});
export type OtherCurveResult = ShapeValue<typeof otherCurveShape>;
