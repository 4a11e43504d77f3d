/** A picture of a core: the strip of it to cut out, and where that strip lies in the ground. No pixels. */
import { list, number, orNull, record, type ShapeValue, text } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

const mark = (about: string) =>
  record(about, {
    x_px: number('from the left edge of the upright picture, in its full resolution', 'px'),
    y_px: number('from its upper edge', 'px'),
    at_m: number('depth it shows, along the basis of the photograph', 'm'),
  });

export const photographShape = record('a picture of a core', {
  row_id: rowId(),
  hole: orNull(text('hole')),
  run: orNull(
    text('run or push that its depths are counted in; null: the entered length, or the ground itself'),
  ),
  file: text('file, as the table of photographs names it'),
  strip: orNull(
    record('the straight piece of the picture that shows the core; null: no two marks to cut it out by', {
      top_m: number('top of the strip, along the basis of the photograph', 'm'),
      bottom_m: number('bottom of the strip', 'm'),
      mark_1: mark('first mark'),
      mark_2: mark('second mark'),
      width_m: number('width of the core at the scale of the marks', 'm'),
      offset_m: number(
        'middle of the core from the line through the marks, positive to the right of it with the top up',
        'm',
      ),
    }),
  ),
  slices: list(
    'where it lies in the ground, straight between the ends of each slice; empty where it could not be placed',
    record('one slice', {
      from_m: number('upper end, along the basis of the photograph', 'm'),
      to_m: number('lower end', 'm'),
      depth_from_m: number('in-situ depth of the upper end, best value', 'm'),
      depth_to_m: number('in-situ depth of the lower end, best value', 'm'),
    }),
  ),
});
/** A picture of a core. */
export type PhotographResult = ShapeValue<typeof photographShape>;
