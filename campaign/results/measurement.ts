/** A laboratory value on a sample or a place in a core. */
import { number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { perhapsEstimate, rowId } from './parts.ts';

export const measurementShape = record('a value measured on a sample or a place in a core', {
  row_id: rowId(),
  property: text('what was measured'),
  value: orNull(number('the value, or the limit that the qualifier speaks of; null: none was given', '')),
  sigma: orNull(sigma('1 sigma of the value', '')),
  unit: orNull(text('unit of value and sigma')),
  qualifier: orNull(
    word('below or above the value, or not determined; null: measured', [
      'less_than',
      'greater_than',
      'not_determined',
    ]),
  ),
  method: orNull(text('how it was measured')),
  batch: orNull(text('batch of measurements made together')),
  sample: orNull(text('sample; null: a place in a core')),
  hole: orNull(text('hole')),
  depth_m: perhapsEstimate('in-situ depth of its middle, m'),
  thickness_m: orNull(number('thickness of what was measured', 'm')),
  elevation_m: perhapsEstimate('elevation of its middle on the campaign datum, m'),
});
export type MeasurementResult = ShapeValue<typeof measurementShape>;
