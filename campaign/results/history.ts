/** Ages of a hole: what `science/dating` returns, with the names a campaign knows things by. */
import { rangeShape } from '@stillstand/science/base';
import { historyShape } from '@stillstand/science/dating';
import { as, list, number, numbers, record, type ShapeValue, text } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

export const holeHistoryShape = record('age against depth in one hole', {
  hole: text('label of the hole'),
  ...historyShape.fields,
  profiles: list('profiles of lead-210 whose activities it reads', text('label of a profile')),
  samples: list(
    'samples of the hole, dated or not, from the top down',
    record('a sample’s age from the whole hole', {
      sample: text('sample'),
      age_cal_bp: as('age of its layer, cal BP', rangeShape),
    }),
  ),
  levels: list(
    'places in the described layers, from the top down: top and base of each, and more between them in thick ones',
    record('one place', {
      unit: text('label of the layer'),
      unit_row_id: rowId(),
      share: number('share of the way from its top to its base', 'ratio'),
    }),
  ),
  draws: record('joint draws: a row is one history of the hole, so that ages keep what they share', {
    age_cal_bp: numbers('age of each sample; not a number below the deepest reach', 'cal BP', 'samples'),
    level_depth_m: numbers('depth of each place below the ground', 'm', 'levels'),
    level_age_cal_bp: numbers('age of each place', 'cal BP', 'levels'),
  }),
});
/** Age against depth in one hole, from all its clocks together. Depths m below ground. */
export type HoleHistory = ShapeValue<typeof holeHistoryShape>;
