/**
 * Where the panels of the plate stand, points. On a whole page the map over the numbers, sea level and rate to their
 * right, the section across under both, one legend at the foot; what cannot be drawn leaves its room to the others.
 */
import { curveOf, type Results } from '@stillstand/campaign/results';
import { NO_SHAPES } from '@stillstand/output/shapes';
import type { CurveAxes } from '../curve/axes.ts';
import { type CurveLayout, curveLayout } from '../curve/layout.ts';
import type { FigureOptions } from '../figure.tsx';
import { type MapLayout, mapLayout } from '../map/layout.ts';
import { mapped } from '../map/mapped.ts';
import { type PlacedSection, placedSection } from '../section/drawing.tsx';
import { type AgesShown, hung } from '../section/layout.ts';
import { type CountsLayout, countsLayout } from './counts.tsx';
import { type LegendLayout, plateLegend } from './legend.tsx';

interface At {
  x: number;
  y: number;
}

export type PanelName = 'map' | 'counts' | 'level' | 'rate' | 'section';

export interface PlateLayout {
  map: (At & { drawn: MapLayout; width: number }) | null;
  counts: At & { drawn: CountsLayout };
  sea: (At & { drawn: CurveLayout }) | null;
  section: (At & { drawn: PlacedSection; width: number }) | null;
  legend: At & { drawn: LegendLayout };
  /** Of the panels there are, in the order they are read. */
  letters: Partial<Record<PanelName, string>>;
  /** What is not there, and why. */
  absent: { panel: PanelName; why: string }[];
  height: number;
}

/** From the head line of a panel to its drawing, points. */
export const HEADING = 14;
const BETWEEN = 16;
const GUTTER = 20;
/** Of the map and the numbers, where sea level is to their right. */
const LEFT_COLUMN = 178;
/** Narrower, the panels stand one below another: less than a page is wide. */
export const WHOLE_PAGE = 525;
/** The least and the most that panels are high, points. */
const MAP = { least: 84, most: 190 } as const;
const SEA = { least: 190, most: 350, unhurried: 290 } as const;
const MOST_SECTION = 330;
/** Of the holes in the section, without what is over and under them. */
const LEAST_HOLES = 56;
const NOTHING = { whole: 0, least: 0 } as const;
/** Of level and rate together, that of the level. */
const LEVEL_SHARE = 0.69;
/** Between level and rate, with the heads of both and the labels of time; without a rate, under the level. */
const OF_SEA = { both: 52, level: 44 } as const;
/** Of a drawing of sea level, under the frame of its rate, so that the numbers end with it. */
const UNDER_RATE = 4;
/** Ages at their samples, or where they have no room only the samples: a list of ages has no room on a plate. */
const AGES: readonly AgesShown[] = ['beside', 'marks'];

const ORDER: readonly PanelName[] = ['map', 'counts', 'level', 'rate', 'section'];

/** Whether there is anything to draw but numbers. */
export function hasPlate(results: Results): boolean {
  const absent = absentFrom(results).map(({ panel }) => panel);
  return results.holes.length > 0 && !ORDER.every((panel) => panel === 'counts' || absent.includes(panel));
}

function absentFrom(results: Results): PlateLayout['absent'] {
  const out: PlateLayout['absent'] = [];
  const few = (count: number): string => (count === 0 ? 'no hole' : 'only one hole');
  const { placed } = mapped(results.holes);
  if (placed.length < 2) out.push({ panel: 'map', why: `${few(placed.length)} has coordinates` });
  const why = results.points.length === 0 ? 'there are no points' : 'no curve could be computed';
  if (results.points.length === 0) out.push({ panel: 'level', why });
  if (results.points.length === 0 || curveOf(results) === null) out.push({ panel: 'rate', why });
  const stands = hung(results).hung.length;
  if (stands < 2) out.push({ panel: 'section', why: `${few(stands)} has a height to be hung at` });
  return out;
}

/** `room` is the height of the page for all of it; panels one below another take what they need. */
export function plateLayout(
  results: Results,
  width: number,
  room: number,
  { axes, shapes = NO_SHAPES }: Pick<FigureOptions, 'axes' | 'shapes'> = {},
): PlateLayout {
  const absent = absentFrom(results);
  const has = (panel: PanelName): boolean => !absent.some((each) => each.panel === panel);
  const isPage = width >= WHOLE_PAGE;
  const widths = widthsOf(width, isPage && has('map'), has('level'));
  const map = (height: number): MapLayout | null =>
    has('map')
      ? mapLayout(
          mapped(results.holes).placed,
          { width: widths.map, height, withLine: has('section') },
          // Too small for an inset, which the map of the location has.
          { ...shapes, land: [] },
        )
      : null;
  const sea = (height: number): CurveLayout | null =>
    has('level') ? seaOf(results, widths.sea, height, axes) : null;
  const section = (height: number): PlacedSection | null =>
    has('section') ? sectionOf(results, width, height) : null;
  const counts = countsLayout(results, widths.counts);
  const legend = plateLegend(
    results,
    {
      map: map(MAP.least),
      section: section(MOST_SECTION),
      curve: sea(SEA.least)?.legend.items ?? [],
    },
    width,
  );
  const heights = heightsOf({
    free: isPage ? room - legend.height - BETWEEN : null,
    counts: HEADING + counts.height,
    side: widths.isBeside ? 'sea' : isPage && has('map') ? 'counts' : 'none',
    has,
    section: has('section') ? wantsOfSection(placedSection(results, width, { ages: AGES })) : NOTHING,
  });

  let y = 0;
  const drawnMap = map(heights.map);
  const mapAt = drawnMap === null ? null : { x: 0, y, drawn: drawnMap, width: widths.map };
  const underMap = drawnMap === null ? 0 : HEADING + drawnMap.height + BETWEEN;
  const countsAt = { x: widths.countsX, y: widths.countsX > 0 ? 0 : underMap, drawn: counts };
  y = Math.max(underMap, countsAt.y + HEADING + counts.height + BETWEEN);
  const drawnSea = sea(heights.sea);
  const seaAt = drawnSea === null ? null : { x: widths.seaX, y: widths.isBeside ? 0 : y, drawn: drawnSea };
  if (seaAt !== null) y = Math.max(y, seaAt.y + seaAt.drawn.height + BETWEEN);
  const drawnSection = section(heights.section);
  const sectionAt = drawnSection === null ? null : { x: 0, y, drawn: drawnSection, width };
  if (drawnSection !== null) y += heightOfSection(drawnSection) + BETWEEN;
  return {
    map: mapAt,
    counts: countsAt,
    sea: seaAt,
    section: sectionAt,
    legend: { x: 0, y, drawn: legend },
    letters: Object.fromEntries(ORDER.filter(has).map((panel, i) => [panel, 'abcde'[i]!])),
    absent,
    height: y + legend.height,
  };
}

function widthsOf(width: number, isMapOnPage: boolean, hasSea: boolean) {
  const isBeside = isMapOnPage && hasSea;
  if (isBeside) {
    const left = Math.min(LEFT_COLUMN, 0.34 * width);
    const seaX = left + GUTTER;
    return { isBeside, map: left, counts: left, countsX: 0, sea: width - seaX, seaX };
  }
  const half = (width - GUTTER) / 2;
  return isMapOnPage
    ? { isBeside, map: half, counts: half, countsX: half + GUTTER, sea: width, seaX: 0 }
    : { isBeside, map: width, counts: width, countsX: 0, sea: width, seaX: 0 };
}

interface Wanted {
  /** For all panels and what is between them; null where they take what they need. */
  free: number | null;
  /** Of the numbers with their head line. */
  counts: number;
  /** What is to the right of the map. */
  side: 'sea' | 'counts' | 'none';
  has: (panel: PanelName) => boolean;
  /** What the section would take in its own figure, and its least. */
  section: { whole: number; least: number };
}

const held = (value: number, { least, most }: { least: number; most: number }): number =>
  Math.max(least, Math.min(most, value));

/** Of map, sea level with its rate, and section; the section has at most half of what there is to share. */
function heightsOf({ free, counts, side, has, section }: Wanted): {
  map: number;
  sea: number;
  section: number;
} {
  const most = Math.min(section.whole, MOST_SECTION);
  if (free === null) return { map: MAP.most, sea: SEA.unhurried, section: Math.max(section.least, most) };
  const first = side === 'counts' ? Math.max(HEADING + MAP.most, counts) : counts;
  const shared = side === 'sea' ? free : free - first - BETWEEN;
  const half = Math.max(section.least, Math.min(most, shared / 2));
  const sea = held(has('section') ? shared - half - BETWEEN : shared, {
    least: side === 'sea' ? Math.max(SEA.least, HEADING + MAP.least + BETWEEN + counts) : SEA.least,
    most: SEA.most,
  });
  const rest = has('level') ? shared - sea - BETWEEN : shared;
  return {
    map: side === 'sea' ? held(sea - UNDER_RATE - HEADING - BETWEEN - counts, MAP) : MAP.most,
    sea,
    section: Math.max(section.least, Math.min(most, rest)),
  };
}

/** Level over rate in so much height. */
function seaOf(results: Results, width: number, height: number, axes?: CurveAxes): CurveLayout {
  const isRated = curveOf(results) !== null;
  const free = height - (isRated ? OF_SEA.both : OF_SEA.level);
  const level_height = isRated ? LEVEL_SHARE * free : free;
  const size = { width, level_height, rate_height: free - level_height };
  const layout = curveLayout(results, size, axes, { legend: 'apart' });
  // Its datum may stand on a line of its own.
  const over = layout.height - height;
  if (over <= 0) return layout;
  return curveLayout(results, { ...size, level_height: level_height - over }, axes, { legend: 'apart' });
}

/** From its head line to the words on its scale. */
const heightOfSection = ({ height, top }: PlacedSection): number => HEADING + height - top - 4;

/** As high as in its own figure; at least names, leads and staff with holes that can be read. */
const wantsOfSection = (placed: PlacedSection): Wanted['section'] => ({
  whole: heightOfSection(placed),
  least: heightOfSection(placed) - placed.layout.height + LEAST_HOLES,
});

/** In so much height: what is over and under the holes follows from how high they are drawn, so it is tried. */
function sectionOf(results: Results, width: number, height: number): PlacedSection {
  let placed = placedSection(results, width, { ages: AGES, height });
  let most = height;
  for (let tries = 0; tries < 4 && heightOfSection(placed) > height; tries++) {
    most = Math.max(
      LEAST_HOLES,
      Math.min(most - 1, height - (heightOfSection(placed) - placed.layout.height)),
    );
    placed = placedSection(results, width, { ages: AGES, height: most });
  }
  return placed;
}
