/** What stood at a hole against age, and what a section line was like through time. Made from ages against depth. */

import { rangeShape } from '@stillstand/science/base';
import {
  as,
  list,
  number,
  numbers,
  orNull,
  record,
  type ShapeValue,
  text,
  word,
  yesNo,
} from '@stillstand/science/shape';
import { rowId } from './parts.ts';

const SPELLS = ['environment', 'since', 'missing', 'unseen', 'before'] as const;

export const environmentShape = record('what stood at a hole, against age', {
  hole: text('label of the hole'),
  converged: yesNo('whether the ages it is made from have converged; not to be used otherwise'),
  ages_cal_bp: numbers('ages of the probabilities and of the surface', 'cal BP'),
  spells: list(
    'what was there, from the youngest down; one begins where the next ends',
    record('one spell', {
      kind: word(
        'environment: layers of one environment; since: after the uppermost layer; missing: of no layer, between two that meet; unseen: in a gap of the core; before: older than the lowest layer',
        SPELLS,
      ),
      environment: orNull(text('environment; null: not said, or of no layer')),
      sediment: orNull(text('sediment of the thickest of its layers')),
      units: list(
        'its layers, from the top down',
        record('one layer', { unit: text('label of the layer'), unit_row_id: rowId() }),
      ),
      began_cal_bp: orNull(as('when it began, cal BP; null: not known', rangeShape)),
      ended_cal_bp: orNull(as('when it ended, cal BP; null: it did not', rangeShape)),
      years: orNull(as('how long it lasted, yr; null: not known', rangeShape)),
      probability: numbers('probability that it was there, at each age', '0 to 1'),
      against_sea: orNull(
        record(
          'the ground against the sea while it stood; null: of no layer, on the inner side of the edge, or beyond the curve',
          {
            began_m: as('height above mean sea level as it began, as the layers lie now, m', rangeShape),
            ended_m: as('the same as it ended, m', rangeShape),
            accretion_mm_yr: as('mean accretion, mm/yr', rangeShape),
            rise_mm_yr: as('mean rise of sea level, mm/yr', rangeShape),
            kept_up: number('probability that the ground rose at least as much as the sea', '0 to 1'),
            reached: number('share of the draws that the curve reaches', '0 to 1'),
          },
        ),
      ),
    }),
  ),
  beds: list(
    'beds laid down at once',
    record('one bed', {
      unit: text('label of the layer'),
      unit_row_id: rowId(),
      environment: orNull(text('environment; null: not said')),
      age_cal_bp: as('age, cal BP', rangeShape),
    }),
  ),
  surface: record('the surface at each age: how high the layer of that age lies now', {
    known: numbers('share of the draws with a layer of that age', '0 to 1'),
    median: numbers('median; not a number where no draw has one', 'm'),
    lower95: numbers('lower end of the central 95 %', 'm'),
    upper95: numbers('upper end of the central 95 %', 'm'),
  }),
});
/** What stood at a hole. Ages cal BP; elevations m on the campaign datum. */
export type EnvironmentResult = ShapeValue<typeof environmentShape>;

export const lineThroughTimeShape = record('a section line through time', {
  line: orNull(text('label of the line; null: the line through all holes that have a place')),
  row_id: orNull(text('identity of its row; null: the line through all holes')),
  converged: yesNo('whether the ages of all its holes have converged; not to be used otherwise'),
  edge: orNull(
    record('the way of an edge along the line; null: fewer than two holes say their side of it', {
      inner: list('environments on its inner side', text('one environment')),
      innermost: text('hole at the end of the line that was inside for longer'),
      ages_cal_bp: numbers('ages', 'cal BP'),
      median: numbers('where it was along the line; not a number where no draw says it', 'm'),
      lower95: numbers('lower end of the central 95 %', 'm'),
      upper95: numbers('upper end of the central 95 %', 'm'),
      between: numbers('probability that it was between two holes', '0 to 1'),
      inside_of_all: numbers('probability that even the innermost hole was outside', '0 to 1'),
      outside_of_all: numbers('probability that all holes were inside', '0 to 1'),
      passages: list(
        'when it passed a hole, from the oldest on, hole by hole',
        record('one passage', {
          hole: text('label of the hole'),
          along_m: number('along the line from its first hole', 'm'),
          came: word('side the hole came to', ['inside', 'outside']),
          age_cal_bp: as('when, cal BP', rangeShape),
        }),
      ),
    }),
  ),
  stood: list(
    'environments of layers that took time, the first to begin first',
    record('how long an environment stood, in one hole of the line or another', {
      environment: text('environment'),
      holes: list('holes that have it', text('label of the hole')),
      began_in: text('hole that had it first'),
      began_cal_bp: as('when it began there, cal BP', rangeShape),
      ended_in: text('hole that had it last'),
      ended_cal_bp: as('when it ended there, cal BP', rangeShape),
      longest_in: text('hole that had it longest without a break'),
      unbroken_yr: as('for how long, yr; between holes it may have stood longer', rangeShape),
      at_least_yr: number(
        'it stood unbroken for at least so long with a probability of 0.95, by the one hole that says the most',
        'yr',
      ),
    }),
  ),
  past_sections: list(
    'the section at ages of the past, the oldest first',
    record('the section at one age', {
      age_cal_bp: number('age', 'cal BP'),
      level_m: orNull(as('sea level then, m; null: beyond the curve', rangeShape)),
      holes: list(
        'holes of the line that have ages against depth',
        record('one hole', {
          hole: text('label of the hole'),
          along_m: number('along the line from its first hole', 'm'),
          kind: word('the likeliest there', SPELLS),
          environment: orNull(text('environment; null: not said, or of no layer')),
          probability: number('its probability', '0 to 1'),
          surface_m: orNull(
            as('elevation of the layer of that age as it lies now, m; null: it has none', rangeShape),
          ),
          drawn_m: orNull(
            number(
              'elevation of the ground as it is drawn: where layers are missing the least it can have been; null: not known',
              'm',
            ),
          ),
        }),
      ),
    }),
  ),
});
/** A line through time. Ages cal BP; metres along the line; elevations m on the campaign datum. */
export type LineThroughTime = ShapeValue<typeof lineThroughTimeShape>;
