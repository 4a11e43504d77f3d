/** What a hole that is not finished is expected to meet. Never kept in the document, and no layer of it. */
import { list, number, orNull, record, type ShapeValue, text } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

const between = record(
  'an elevation that is expected, where the contact is there',
  {
    median: number('half as probable to be deeper', 'm'),
    lower95: number('lower end of the central 95 %', 'm'),
    upper95: number('upper end of the central 95 %', 'm'),
  },
  'expected_elevation',
);

export const expectationShape = record(
  'what a planned or open hole is expected to meet below what is described of it, from its neighbours',
  {
    hole_row_id: rowId(),
    hole: text('label of the hole'),
    ground_m: orNull(number('elevation of its ground; null: not levelled', 'm')),
    described_m: orNull(
      number('elevation down to which it is described; null where neither ground nor layers have one', 'm'),
    ),
    asked: list(
      'holes that say it, the nearest first',
      record('one hole', {
        hole: text('label of the hole'),
        distance_m: number('distance', 'm'),
      }),
    ),
    ties: number('correlations between them that a person accepted', 'correlations'),
    proposed_ties: number('clear proposals that are taken as well', 'correlations'),
    contacts: list(
      'contacts, from the uppermost down',
      record('one contact', {
        horizon: orNull(text('horizon; null: not named')),
        sediment: orNull(text('sediment above it, in the nearest hole that has it')),
        environment: orNull(text('environment of that layer; null: not said')),
        units: list(
          'layers whose base it is, the nearest hole first',
          record('one layer', {
            hole: text('label of the hole'),
            unit: text('label of the layer'),
            unit_row_id: rowId(),
          }),
        ),
        before: number(
          'probability that it is there, before it is known how deep the hole went without it',
          'ratio',
        ),
        present: number('probability that it is there, below what is described', 'ratio'),
        elevation_m: between,
        with_80_m: number('elevation to go down to, to reach it with 80 % where it is there', 'm'),
        with_95_m: number('the same with 95 %', 'm'),
        age_cal_bp: orNull(
          record('its age in the holes that have one', {
            younger: number('in the hole where it is youngest', 'cal BP'),
            older: number('in the hole where it is oldest', 'cal BP'),
          }),
        ),
        met: orNull(
          record('where the hole has met it', {
            unit: text('label of the layer above it'),
            unit_row_id: rowId(),
            elevation_m: number('its elevation', 'm'),
            improbable: number('probability of one as far off or farther, by what the others say', 'ratio'),
          }),
        ),
      }),
    ),
  },
);
export type ExpectationResult = ShapeValue<typeof expectationShape>;
