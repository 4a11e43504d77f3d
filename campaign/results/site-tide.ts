/** Tide levels of a site, as its points use them. */
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

export const siteTideShape = record('tide levels of a site, on the datum of the campaign', {
  site: text('label of the site'),
  levels: list(
    'its levels, the highest name first',
    record('one level', {
      level: text('name of the level, such as MHW'),
      row_id: rowId(),
      basis: word(
        'stated: as entered; constants, means: computed from those of a gauge, or from its readings',
        ['stated', 'constants', 'means'],
      ),
      elevation_m: number('its elevation', 'm'),
      sigma_m: orNull(sigma('1 sigma; null: not stated', 'm')),
      gauge: orNull(text('the gauge it is computed from; null where nothing is computed')),
      computed_m: orNull(
        number('what is computed for it; differs from its elevation where a stated level is used', 'm'),
      ),
      computed_sigma_m: orNull(sigma('1 sigma of what is computed', 'm')),
    }),
  ),
});
export type SiteTideResult = ShapeValue<typeof siteTideShape>;
