/** Laboratory values of one quantity along one hole, in one unit. */
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { anEstimate } from './parts.ts';

export const logShape = record('values of one quantity along a hole, in one unit', {
  hole: text('label of the hole'),
  property: text('what was measured, as it is named most often there'),
  unit: orNull(text('unit of all its values; null: none was stated')),
  points: list(
    'its values from the top down; the errors of their depths are shared along the hole, as its depth model has them',
    record('a value at its depth', {
      trace: text('name of the value in the trace: a measurement, or what was computed from weights'),
      sample: orNull(text('sample; null: a place in a core')),
      depth_m: anEstimate('in-situ depth of its middle, m'),
      thickness_m: orNull(number('thickness of what was measured', 'm')),
      value: orNull(number('the value, or the limit that the qualifier speaks of', 'unit of the log')),
      sigma: orNull(sigma('1 sigma', 'unit of the log')),
      qualifier: orNull(
        word('below or above the value, or not determined; null: measured', [
          'less_than',
          'greater_than',
          'not_determined',
        ]),
      ),
      computed: word('measured as it is, or computed from weights of a pan', ['measured', 'from_weights']),
    }),
  ),
});
export type LogResult = ShapeValue<typeof logShape>;
export type LogPoint = LogResult['points'][number];
