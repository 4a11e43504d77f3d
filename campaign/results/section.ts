/** A section line: its holes, and what is drawn between them. Made from ties; never kept in the document. */
import { schemas } from '@stillstand/campaign/tables';
import { list, number, orNull, record, type ShapeValue, text, word, yesNo } from '@stillstand/science/shape';

const place = record(
  'a place on a section',
  {
    along_m: number('along the line from its first hole', 'm'),
    elevation_m: number('elevation on the campaign datum', 'm'),
  },
  'place_on_section',
);
const places = (about: string) => list(about, place);

export const sectionShape = record('a line through holes', {
  line: orNull(text('label of the line; null: the line through all holes that have a place')),
  row_id: orNull(text('identity of its row; null: the line through all holes')),
  holes: list(
    'its holes that have a place and a levelled ground, in their order',
    record('one hole', {
      hole: text('label of the hole'),
      along_m: number('along the line from its first hole', 'm'),
      offset_m: orNull(
        number('distance from the line, to the right of it (+) or the left (−); null: not known', 'm'),
      ),
    }),
  ),
  distances: word('whether distances along the line are known; unknown: holes are set 100 m apart', [
    'measured',
    'unknown',
  ]),
  length_m: number('length of the line', 'm'),
  ground: places('the ground along the line'),
  is_profiled: yesNo('whether a profile of the ground is given; otherwise straight between the holes'),
  bodies: list(
    'units as they are filled in between the holes',
    record('one body of sediment', {
      id: text('identity of the first of its units'),
      sediment: text('sediment'),
      units: list(
        'units it is in its holes',
        record('one unit', {
          hole: text('label of the hole'),
          unit: text('label of the unit'),
          unit_row_id: text('identity of that unit'),
        }),
      ),
      outline: places('its outline; the last place joins the first'),
    }),
  ),
  contacts: list(
    'contacts between the holes',
    record('one contact', {
      hole_a: text('hole'),
      unit_a: text('label of the unit above it there'),
      unit_a_row_id: text('identity of that unit'),
      hole_b: orNull(text('the next hole; null: it ends before it')),
      unit_b: orNull(text('label of the unit above it there')),
      unit_b_row_id: orNull(text('identity of that unit')),
      horizon: orNull(text('horizon; null: not named')),
      confidence: orNull(
        word(
          'how certain the correlation is; null: not correlated, or not stated',
          schemas.correlations.columns.confidence.choices,
        ),
      ),
      ending: word('how it runs', schemas.section_boundaries.columns.ending.choices),
      is_erosional: yesNo('whether the base of the unit above it is erosional in one of the holes'),
      is_lateral: yesNo('whether it is where two bodies meet side by side; otherwise the base of a unit'),
      line: places('its line'),
      tie: orNull(text('identity of the row of its correlation; null: none')),
      boundary: orNull(text('identity of the row that says how it runs; null: none')),
    }),
  ),
  queries: places('places where nothing is known'),
  time_lines: list(
    'lines of one age',
    record('one line', {
      age_cal_bp: number('age', 'cal BP'),
      line: places('its line'),
    }),
  ),
});
export type SectionResult = ShapeValue<typeof sectionShape>;
