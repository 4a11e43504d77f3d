/** A piece taken. */
import { list, number, orNull, record, type ShapeValue, text, yesNo } from '@stillstand/science/shape';
import { component, perhapsEstimate, rowId } from './parts.ts';

export const sampleShape = record('a piece taken', {
  row_id: rowId(),
  sample: text('label of the sample'),
  hole: orNull(text('hole')),
  site: orNull(text('site')),
  material: orNull(text('what it is made of')),
  dated: yesNo('whether a determination names it'),
  depth_m: perhapsEstimate('in-situ depth of its middle, m'),
  thickness_m: orNull(number('thickness', 'm')),
  elevation_m: perhapsEstimate('elevation of its middle on the campaign datum, m'),
  components: list('parts of the error of its elevation', component),
});
export type SampleResult = ShapeValue<typeof sampleShape>;
