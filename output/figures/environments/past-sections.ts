/** Sections at ages of the past, as they lie on paper: side by side, all to one scale. */
import type { LineThroughTime, Results, SectionResult } from '@stillstand/campaign/results';
import { roundLength, type Scale, type Sediment, scale, textWidth } from '@stillstand/output/drawing';
import { decimalsDrawn, printed, signed, years } from '@stillstand/output/words';
import { sedimentsOfBodies } from '../section/fill.tsx';
import { cutLine, cutOutline, pairs } from '../section/on-paper.ts';

type PastSection = LineThroughTime['past_sections'][number];
type Point = readonly [x: number, y: number];

/** A stretch of a surface between two holes, or a little way past one. */
interface Stretch {
  from: Point;
  to: Point;
  /** Layers are missing or were not recovered at one of its ends: it lies at least so high. */
  isLeast: boolean;
}

export interface PastCell {
  past: PastSection;
  /** Its upper left corner, from that of all. */
  x: number;
  y: number;
  surface: Stretch[];
  /** Between the surface and sea level, where the surface is below it. */
  water: Point[][];
  level: { lower: number; upper: number; median: number } | null;
}

export interface PastSections {
  cells: PastCell[];
  /** Of one, with the labels of its holes over it and its age under it. */
  cell: { width: number; drawing: number; height: number };
  /** Under the age, points: where both have no room on one line. */
  level_below: number;
  height: number;
  /** Under the sections, for the bar of their scale. */
  below: number;
  bodies: { sediment: Sediment; outline: Point[] }[];
  /** The ground of today. */
  ground: Point[];
  holes: { hole: string; x: number; y: number; label_x: number | null }[];
  bar: { along_m: number; along: number; up_m: number; up: number; exaggeration: number | null };
}

/** Over the bar of their scale, under the sections, points. */
const OVER_BAR = 7;
const LEAST_BAR = 9;
/** Over the drawing for the labels of holes, under it for age and level. */
export const LABELS = 11;
const AGE_ROOM = 12;
/** Where age and level have no room on one line. */
const SECOND_LINE = 8.6;
export const AGE_SIZE = 8.5;
const GAP = 12;
const LEAST_WIDTH = 95;
/** Beyond the outermost holes, points. */
const BEYOND = 7;
const DRAWING = { least: 84, most: 120, share: 0.62, most_of_rows: 88 } as const;

export function pastSections(
  results: Results,
  { past_sections }: LineThroughTime,
  section: SectionResult | null,
  width: number,
): PastSections {
  const count = past_sections.length;
  const most = Math.max(1, Math.min(count, Math.floor((width + GAP) / (LEAST_WIDTH + GAP))));
  // As many in each row, nearly.
  const perRow = Math.ceil(count / Math.ceil(count / most));
  const cellWidth = (width - GAP * (perRow - 1)) / perRow;
  const most_high = count > perRow ? DRAWING.most_of_rows : DRAWING.most;
  const drawing = Math.min(most_high, Math.max(DRAWING.least, cellWidth * DRAWING.share));
  const isLong = past_sections.some(
    (past) => textWidth(ageWords(past), BOLD) + textWidth(levelWords(past).join(''), BOLD) + 6 > cellWidth,
  );
  const height = LABELS + drawing + AGE_ROOM + (isLong ? SECOND_LINE : 0);
  const places = section?.holes ?? past_sections[0]!.holes;
  const along = places.map(({ along_m }) => along_m);
  const x = scale(Math.min(...along), Math.max(...along), BEYOND, cellWidth - BEYOND);
  const y = elevations(past_sections, section, drawing);
  // What lies beyond the paper is cut: where all holes stand at one place a metre is as wide as it.
  const ends = { from_m: x.from - BEYOND / x.k, to_m: x.from + (cellWidth - BEYOND) / x.k };
  const onPaper = (line: readonly (readonly [number, number])[]): Point[] =>
    line.map(([along_m, elevation_m]) => [x(along_m), y(elevation_m)]);
  const sedimentIn = sedimentsOfBodies(results.holes);
  const ground = onPaper(cutLine(pairs(section?.ground ?? []), ends));
  const cells = past_sections.map((past, i): PastCell => {
    const surface = surfaceOf(past, x, y, cellWidth);
    return {
      past,
      x: (i % perRow) * (cellWidth + GAP),
      y: Math.floor(i / perRow) * (height + 6),
      surface,
      water: past.level_m === null ? [] : surface.flatMap((each) => waterOver(each, y(past.level_m!.median))),
      level:
        past.level_m === null
          ? null
          : {
              lower: y(past.level_m.lower95),
              upper: y(past.level_m.upper95),
              median: y(past.level_m.median),
            },
    };
  });
  const along_m = roundLength((0.45 * cellWidth) / x.k);
  const up_m = roundLength((0.36 * drawing) / Math.abs(y.k));
  return {
    cells,
    cell: { width: cellWidth, drawing, height },
    level_below: isLong ? SECOND_LINE : 0,
    height: Math.ceil(count / perRow) * (height + 6) - 6,
    below: OVER_BAR + Math.max(LEAST_BAR, up_m * Math.abs(y.k)),
    bodies: (section?.bodies ?? []).flatMap((body) => {
      const outline = onPaper(cutOutline(pairs(body.outline), ends));
      return outline.length < 3 ? [] : [{ sediment: sedimentIn(body), outline }];
    }),
    ground,
    holes: labelsOf(places, new Set(past_sections[0]!.holes.map(({ hole }) => hole)), x, cellWidth).map(
      (hole) => ({ ...hole, y: groundOver(ground, hole.x) }),
    ),
    bar: {
      along_m,
      along: along_m * x.k,
      up_m,
      up: up_m * Math.abs(y.k),
      exaggeration: section?.distances === 'unknown' ? null : Math.abs(y.k) / x.k,
    },
  };
}

const BOLD = { weight: 600, size: AGE_SIZE } as const;
const ageWords = ({ age_cal_bp }: PastSection): string => `${years(age_cal_bp)} cal BP`;

/** "−8.1" and " m ±0.4": the median, and half of the central 95 %. */
export function levelWords({ level_m }: PastSection): [median: string, rest: string] {
  if (level_m === null) return ['', 'sea not known'];
  const half = (level_m.upper95 - level_m.lower95) / 2;
  const decimals = Math.min(1, decimalsDrawn(half));
  return [signed(level_m.median, decimals), ` m ±${printed(half, decimals)}`];
}

/** One scale for all ages: from the lowest of what is drawn to the ground of today. */
function elevations(pasts: readonly PastSection[], section: SectionResult | null, drawing: number): Scale {
  const drawn = pasts.flatMap(({ holes, level_m }) => [
    ...holes.flatMap(({ drawn_m }) => drawn_m ?? []),
    ...(level_m === null ? [] : [level_m.lower95, level_m.upper95]),
  ]);
  const of = (places: readonly { elevation_m: number }[]): number[] =>
    places.map(({ elevation_m }) => elevation_m);
  const all = [
    ...drawn,
    ...of(section?.ground ?? []),
    ...(section?.bodies.flatMap(({ outline }) => of(outline)) ?? []),
  ];
  const [low, high] = all.length === 0 ? [0, 1] : [Math.min(...all), Math.max(...all)];
  return scale(high > low ? high : low + 1, low, LABELS + 2, LABELS + drawing);
}

/** Straight between holes that know how high it lay; a little way past one whose neighbour does not. */
function surfaceOf({ holes }: PastSection, x: Scale, y: Scale, width: number): Stretch[] {
  const places = holes
    .map(({ along_m, drawn_m, kind }) => ({
      x: x(along_m),
      drawn_m,
      isLeast: kind === 'missing' || kind === 'unseen',
    }))
    .sort((a, b) => a.x - b.x);
  return places.flatMap((place, i): Stretch[] => {
    if (place.drawn_m === null) return [];
    const at = y(place.drawn_m);
    const [before, after] = [places[i - 1], places[i + 1]];
    const out: Stretch[] = [];
    const stub = (from: number, to: number): void => {
      out.push({ from: [from, at], to: [to, at], isLeast: place.isLeast });
    };
    if (before === undefined) stub(Math.max(0, place.x - BEYOND), place.x);
    else if (before.drawn_m === null) stub(Math.max((before.x + place.x) / 2, place.x - BEYOND), place.x);
    if (after === undefined) stub(place.x, Math.min(width, place.x + BEYOND));
    else if (after.drawn_m === null) stub(place.x, Math.min((after.x + place.x) / 2, place.x + BEYOND));
    else
      out.push({
        from: [place.x, at],
        to: [after.x, y(after.drawn_m)],
        isLeast: place.isLeast || after.isLeast,
      });
    return out;
  });
}

/** Paper grows downward: water lies between the level and a surface that is farther down. */
function waterOver({ from, to }: Stretch, level: number): Point[][] {
  const [deepFrom, deepTo] = [from[1] > level, to[1] > level];
  if (!deepFrom && !deepTo) return [];
  const shore = (): Point => [from[0] + ((level - from[1]) / (to[1] - from[1])) * (to[0] - from[0]), level];
  const a = deepFrom ? [[from[0], level] as const, from] : [shore()];
  const b = deepTo ? [to, [to[0], level] as const] : [shore()];
  return [[...a, ...b]];
}

/** Labels that have room, those of the ends first, then those of holes with ages. */
function labelsOf(
  places: readonly { hole: string; along_m: number }[],
  aged: ReadonlySet<string>,
  x: Scale,
  width: number,
): { hole: string; x: number; label_x: number | null }[] {
  const taken: [number, number][] = [];
  const known = [...places.keys()].filter((i) => aged.has(places[i]!.hole));
  const order = [0, places.length - 1, ...known, ...places.keys()];
  const label = new Map<number, number>();
  for (const i of new Set(order)) {
    const place = places[i];
    if (place === undefined) continue;
    const half = textWidth(place.hole) / 2;
    const at = Math.max(half, Math.min(width - half, x(place.along_m)));
    if (half * 2 > width || taken.some(([from, to]) => at - half < to + 3 && at + half > from - 3)) continue;
    taken.push([at - half, at + half]);
    label.set(i, at);
  }
  return places.map(({ hole, along_m }, i) => ({ hole, x: x(along_m), label_x: label.get(i) ?? null }));
}

function groundOver(ground: readonly Point[], x: number): number {
  const after = ground.findIndex(([at]) => at >= x);
  if (after <= 0) return (after === 0 ? ground[0] : ground.at(-1))?.[1] ?? LABELS + 2;
  const [a, b] = [ground[after - 1]!, ground[after]!];
  return b[0] === a[0] ? b[1] : a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}
