/** Where a campaign was drilled: its holes with coast and grounds, and where on the Earth that is. */
import type { Results } from '@stillstand/campaign/results';
import { drawn, type Figure, type FigureOptions, innerWidth } from './figure.tsx';
import { leftOffInWords, shapesInWords } from './map/caption.ts';
import { SHOWN_DEG } from './map/inset.ts';
import { type MapLayout, mapLayout } from './map/layout.ts';
import { CampaignMap } from './map/map.tsx';
import { mapped } from './map/mapped.ts';

export const hasLocation = (results: Results): boolean =>
  mapped(results.holes, { planned: true }).placed.length > 0;

/** A column wide; its coast, grounds and inset are those of the option `shapes`. */
export function locationFigure(results: Results, options: FigureOptions = {}): Figure {
  const width = innerWidth('one', options);
  const { placed, unplaced } = mapped(results.holes, { planned: true });
  const map = mapLayout(
    placed,
    { width, height: Math.min(330, 0.95 * width + 26), withLine: true },
    options.shapes,
  );
  return drawn(
    {
      width: 'one',
      name: 'location',
      title: `${results.name}, location`,
      notes: [],
      warnings: [],
      caption: { head: 'Location of the holes.', text: locationCaption(map, unplaced) },
      height: map.height,
    },
    <CampaignMap map={map} id="location" />,
    options,
  );
}

function locationCaption(map: MapLayout, unplaced: readonly string[]): string {
  const has = (kind: string): boolean => map.holes.some(({ hole }) => hole.kind === kind);
  return [
    `Rings: holes${has('given_up') ? '; struck, lost or abandoned' : ''}${has('planned') ? '; broken, planned' : ''}.`,
    map.line === null ? '' : 'Dashed: line of the section, from A to B.',
    ...shapesInWords(map),
    map.inset === null
      ? ''
      : `Inset: land within ${SHOWN_DEG}°; the square marks the place (Natural Earth, 1:110 million).`,
    'Azimuthal equidistant projection about the middle of the holes, WGS 84.',
    ...leftOffInWords(map, unplaced),
  ]
    .filter((part) => part !== '')
    .join(' ');
}
