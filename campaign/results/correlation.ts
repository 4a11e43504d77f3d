/** A contact of one hole that a person has found again in another. */
import { schemas } from '@stillstand/campaign/tables';
import { orNull, record, type ShapeValue, text, word } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

export const correlationShape = record('the base of a unit of one hole, correlated with that of another', {
  row_id: rowId(),
  hole_a: text('one hole'),
  unit_a: text('label of its unit'),
  unit_a_row_id: text('identity of that unit among those of its hole'),
  hole_b: text('the other hole'),
  unit_b: text('label of its unit'),
  unit_b_row_id: text('identity of that unit among those of its hole'),
  confidence: orNull(
    word('how certain it is; null: not stated', schemas.correlations.columns.confidence.choices),
  ),
});
export type CorrelationResult = ShapeValue<typeof correlationShape>;
