/** Contacts of one hole found again in another: accepted by a person, named as horizons, or proposed. */
import { schemas } from '@stillstand/campaign/tables';
import { list, number, orNull, record, type ShapeValue, text, word, yesNo } from '@stillstand/science/shape';
import { anEstimate, perhapsEstimate, rowId } from './parts.ts';

const ends = {
  hole_a: text('one hole'),
  unit_a: text('label of its unit'),
  unit_a_row_id: text('identity of that unit among those of its hole'),
  hole_b: text('the other hole'),
  unit_b: text('label of its unit'),
  unit_b_row_id: text('identity of that unit among those of its hole'),
};

export const correlationShape = record('the base of a unit of one hole, correlated with that of another', {
  row_id: rowId(),
  ...ends,
  confidence: orNull(
    word('how certain it is; null: not stated', schemas.correlations.columns.confidence.choices),
  ),
  horizon: orNull(text('horizon it belongs to by its own name; null: not named')),
});
export type CorrelationResult = ShapeValue<typeof correlationShape>;

export const proposalShape = record('a correlation that is proposed; no person has said anything of it yet', {
  ...ends,
  margin: number(
    'by how much the best alignment of the two holes is better than the best one without it, natural logarithm',
    '',
  ),
  is_clear: yesNo('whether the margin is at least the stated one; below it a proposal is doubtful'),
  next_of_a: orNull(
    text('unit of the other hole that the next best alignment puts with unit a; null: none, a missing layer'),
  ),
  next_of_b: orNull(
    text('unit of the one hole that the next best alignment puts with unit b; null: none, a missing layer'),
  ),
  sediment: number('what the sediments say for it, natural logarithm', ''),
  thickness: number('what the thicknesses say for it, natural logarithm', ''),
  elevation: number('what the elevations say for it, natural logarithm', ''),
  measured: number(
    'what measured values and ages say for it, natural logarithm; 0 where none is compared',
    '',
  ),
});
export type ProposalResult = ShapeValue<typeof proposalShape>;

export const horizonShape = record('a contact with a name, in every hole it is found in', {
  horizon: text('its name'),
  contacts: list(
    'the bases that are it, in the order of the holes',
    record('its place in one hole', {
      hole: text('hole'),
      unit: text('label of the unit above it'),
      unit_row_id: text('identity of that unit among those of its hole'),
      depth_m: anEstimate('in-situ depth, m'),
      elevation_m: perhapsEstimate('elevation on the campaign datum, m'),
    }),
  ),
});
export type HorizonResult = ShapeValue<typeof horizonShape>;
