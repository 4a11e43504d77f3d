/** The caption of the plate: panel by panel, what is not there, and which curve it is. */
import {
  curveLookedAt,
  fromEachCurve,
  nameOfCurve,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import { curveCaption } from '../curve-figure.tsx';
import type { FigureOptions } from '../figure.tsx';
import { leftOffInWords, shapesInWords } from '../map/caption.ts';
import { mapped } from '../map/mapped.ts';
import { sectionCaption } from '../section-figure.tsx';
import type { PanelName, PlateLayout } from './layout.ts';

const NAMES: Record<PanelName, string> = {
  map: 'map',
  counts: 'numbers',
  level: 'sea level',
  rate: 'rate',
  section: 'section',
};

export function plateCaption(results: Results, layout: PlateLayout, options: FigureOptions): string {
  const { map, sea, section, letters } = layout;
  return [
    map === null ? '' : `(${letters.map}) ${mapInWords(results, layout)}`,
    `(${letters.counts}) ${COUNTS}`,
    sea === null
      ? ''
      : `(${[letters.level, letters.rate].filter((letter) => letter !== undefined).join(', ')}) ${curveInWords(results)}${curveCaption(sea.drawn, options)} Points are named in the figure of the curve; here those alone that disagree with the others.`,
    section === null ? '' : `(${letters.section}) ${sectionCaption(results, section.drawn, options)}`,
    absentInWords(layout),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

const COUNTS =
  'Drilled is the penetration of all holes, recovered the length from runs and pushes without fall-in; a sample is used where one of its dates is.';

function mapInWords(results: Results, { map }: PlateLayout): string {
  const { drawn } = map!;
  return [
    'Holes at their distance and direction from the middle of the map (azimuthal equidistant, WGS 84).',
    ...(drawn.line === null ? [] : ['Dashed, the line of the section, from A to B.']),
    ...shapesInWords(drawn),
    ...leftOffInWords(drawn, mapped(results.holes).unplaced),
  ].join(' ');
}

/** Of several curves the one of the report, and where the others are. */
function curveInWords(results: Results): string {
  if (results.curves.length < 2) return '';
  const others = fromEachCurve(results)
    .filter((seen) => curveLookedAt(seen) !== curveLookedAt(results))
    .map((seen) => `${nameOfCurve(curveLookedAt(seen)) ?? 'main'} (${sitesNamed(sitesOfCurve(seen))})`);
  return `The curve of the report, of ${sitesNamed(sitesOfCurve(results))}; each other curve has a figure of its own: ${others.join(', ')}. `;
}

/** "Not drawn: map (no hole has coordinates); sea level and rate (there are no points)." */
function absentInWords({ absent }: PlateLayout): string {
  const reasons = [...new Set(absent.map(({ why }) => why))];
  const parts = reasons.map((why) => {
    const panels = absent.filter((each) => each.why === why).map(({ panel }) => NAMES[panel]);
    return `${panels.join(' and ')} (${why})`;
  });
  return parts.length === 0 ? '' : `Not drawn: ${parts.join('; ')}.`;
}
