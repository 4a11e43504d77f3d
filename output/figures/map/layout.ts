/**
 * The map of a campaign: every hole at its distance and direction from the middle, so that lengths from there are true
 * (azimuthal equidistant, on the geodesics of WGS 84), with coasts and grounds where the campaign has them.
 */
import { type Rect, roundLength, textWidth } from '@stillstand/output/drawing';
import { type Ground, type MapShapes, NO_SHAPES } from '@stillstand/output/shapes';
import { mean, square } from '@stillstand/science/base';
import { onLine, type Position } from '@stillstand/science/survey';
import { freePlace } from './free-place.ts';
import { DEGREES_ROOM, type Degrees, freeDegrees, graticule, scalesAt, turned } from './graticule.ts';
import { type Inset, insetIn, insetRect } from './inset.ts';
import type { Mapped } from './mapped.ts';
import { along, alongAll, around, NAME_HEIGHT, type NamedHole, named, RING } from './names.ts';
import { hachures, piecesOf } from './on-paper.ts';

type Point = readonly [x: number, y: number];

export interface MapLayout {
  frame: Rect;
  holes: NamedHole[];
  coasts: Point[][];
  /** Strokes on the side of the sea, where it is known. */
  hachures: [Point, Point][];
  grounds: { rings: Point[][]; name: (Rect & { words: string }) | null }[];
  /** Where on the Earth it is; null where no corner is free. */
  inset: Inset | null;
  /** The line of the section from A to B, a little beyond the outermost holes; null where it has none. */
  line: readonly [Point, Point] | null;
  ends: (Rect & { letter: string })[];
  meridians: Point[][];
  parallels: Point[][];
  degrees: Degrees[];
  /** A round length and where it ends from the left of the frame, points. */
  bar: { length_m: number; end: number };
  height: number;
}

/** Under the frame: degrees of the meridians, then the scale bar with its labels. */
const UNDER = { bar: DEGREES_ROOM + 5, height: DEGREES_ROOM + 17 } as const;
/** White about the outermost holes, for their names and the letters of the line. */
const MARGIN = { x: 26, y: 17 } as const;
/** Shown about the holes at least, m. */
const LEAST_SPAN_M = 60;
/** The scale bar is at most this share of the frame. */
const BAR = 0.4;
/** The line goes on beyond the outermost hole, and its letter stands beyond the line, points. */
const BEYOND = { line: 7, letter: 11 } as const;

function middleOf(places: readonly Position[]): Position {
  const from = places[0]!.longitude_deg;
  const east = places.map((p) => turned(p.longitude_deg - from));
  const north = places.map((p) => p.latitude_deg);
  return {
    latitude_deg: (Math.min(...north) + Math.max(...north)) / 2,
    longitude_deg: turned(from + (Math.min(...east) + Math.max(...east)) / 2),
  };
}

export interface MapSize {
  width: number;
  height: number;
  /** The line of the section, where there is one. */
  withLine: boolean;
}

/** Of one or more holes, with the scale bar under it. */
export function mapLayout(
  placed: readonly Mapped[],
  { width, height, withLine }: MapSize,
  shapes: MapShapes = NO_SHAPES,
): MapLayout {
  const frame = { x1: 0, y1: 0, x2: width, y2: height - UNDER.height };
  const middle = middleOf(placed);
  const metres = placed.map((place) => onLine(middle, 0, place));
  const east = extent(metres.map(({ offset_m }) => offset_m));
  const north = extent(metres.map(({ along_m }) => along_m));
  const k = Math.min(
    (width - 2 * MARGIN.x) / Math.max(LEAST_SPAN_M, east.span),
    (frame.y2 - 2 * MARGIN.y) / Math.max(LEAST_SPAN_M, north.span),
  );
  const onPaper = ({ along_m, offset_m }: { along_m: number; offset_m: number }): Point => [
    width / 2 + (offset_m - east.middle) * k,
    frame.y2 / 2 - (along_m - north.middle) * k,
  ];
  const at = (place: Position): Point => onPaper(onLine(middle, 0, place));
  const points = metres.map(onPaper);
  const line = withLine ? sectionLine(placed, points) : null;
  const ends = line === null ? [] : lettersAt(line);
  const rings = points.map(([x, y]) => around(x, y, RING + 0.6));
  const marks = [...rings, ...ends, ...(line === null ? [] : along(line))];
  const paper = { frame, at, near: nearly(middle, at) };
  const coasts = shapes.coasts.map((coast) => ({
    sea: coast.sea,
    pieces: piecesOf(coast.places, coast.isClosed, paper),
  }));
  const pieces = coasts.flatMap((coast) => coast.pieces);
  const shore = pieces.flatMap(alongAll);
  const inset = insetIn(frame, middle, shapes.land, { taken: marks, shore });
  const fixed = inset === null ? marks : [...marks, insetRect(inset)];
  const holes = named(placed, points, frame, fixed, shore);
  const names = [...holes.flatMap(({ name }) => (name === null ? [] : [name])), ...fixed];
  const grounds = shapes.grounds.map((ground) => groundOn(ground, paper, names));
  const grid = graticule(middle, at, frame);
  const length_m = roundLength((BAR * width) / k);
  return {
    frame,
    holes,
    coasts: pieces,
    hachures: coasts.flatMap(({ sea, pieces: lines }) =>
      sea === null ? [] : lines.flatMap((piece) => hachures(piece, sea)),
    ),
    grounds,
    inset,
    line,
    ends,
    meridians: grid.meridians,
    parallels: grid.parallels,
    degrees: freeDegrees(grid.degrees, names, shore),
    bar: { length_m, end: length_m * k },
    height,
  };
}

/** As `at` puts the middle and a little round it: for places by the thousand, good to a part in two hundred. */
function nearly(middle: Position, at: (place: Position) => Point): (place: Position) => Point {
  const { x0, y0, east_k, north_k } = scalesAt(middle, at);
  return ({ latitude_deg, longitude_deg }) => [
    x0 + turned(longitude_deg - middle.longitude_deg) * east_k,
    y0 - (latitude_deg - middle.latitude_deg) * north_k,
  ];
}

type Paper = Parameters<typeof piecesOf>[2];

/** Its outline, and its name in the middle of what is seen of it, where that is free. */
function groundOn({ name, rings }: Ground, paper: Paper, taken: Rect[]): MapLayout['grounds'][number] {
  const { frame } = paper;
  const pieces = rings.flatMap((ring) => piecesOf(ring, true, paper));
  const seen = pieces
    .flat()
    .filter(([x, y]) => x >= frame.x1 && x <= frame.x2 && y >= frame.y1 && y <= frame.y2);
  if (seen.length === 0) return { rings: pieces, name: null };
  const [x, y] = [extent(seen.map((point) => point[0])).middle, extent(seen.map((point) => point[1])).middle];
  const width = textWidth(name);
  const places = [0, -NAME_HEIGHT, NAME_HEIGHT, -2 * NAME_HEIGHT, 2 * NAME_HEIGHT].map((down) => {
    const y1 = y + down - NAME_HEIGHT / 2;
    const x1 = Math.max(frame.x1 + 2, Math.min(frame.x2 - 2 - width, x - width / 2));
    return { x1, x2: x1 + width, y1, y2: y1 + NAME_HEIGHT, words: name };
  });
  const place = freePlace(
    places.filter(({ y1, y2 }) => y1 >= frame.y1 + 2 && y2 <= frame.y2 - 2),
    taken,
  );
  if (place !== null) taken.push(place);
  return { rings: pieces, name: place };
}

function extent(values: readonly number[]): { span: number; middle: number } {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return { span: high - low, middle: (low + high) / 2 };
}

/**
 * The straight line whose distances the holes have: paper against distance by least squares, which is exact, because the
 * line is the principal axis of the holes and what they lie off it does not go with the distance.
 */
function sectionLine(holes: readonly Mapped[], points: readonly Point[]): MapLayout['line'] {
  const on = holes.flatMap(({ section_m }, i) => (section_m === null ? [] : [{ section_m, at: points[i]! }]));
  if (on.length < 2) return null;
  const middle = mean(on.map(({ section_m }) => section_m));
  const spread = on.reduce((sum, { section_m }) => sum + square(section_m - middle), 0);
  if (spread === 0) return null;
  const [x, y] = ([0, 1] as const).map((axis) => {
    const centre = mean(on.map(({ at }) => at[axis]));
    const slope =
      on.reduce((sum, { section_m, at }) => sum + (section_m - middle) * (at[axis] - centre), 0) / spread;
    return (section_m: number): number => centre + slope * (section_m - middle);
  });
  const distances = on.map(({ section_m }) => section_m);
  const at = (section_m: number): Point => [x!(section_m), y!(section_m)];
  const [a, b] = [at(Math.min(...distances)), at(Math.max(...distances))];
  return [beyond(b, a, BEYOND.line), beyond(a, b, BEYOND.line)];
}

/** `by` points past `to`, coming from `from`. */
function beyond(from: Point, to: Point, by: number): Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.sqrt(square(dx) + square(dy));
  return length === 0 ? to : [to[0] + (dx / length) * by, to[1] + (dy / length) * by];
}

const lettersAt = ([a, b]: readonly [Point, Point]): MapLayout['ends'] =>
  [beyond(b, a, BEYOND.letter - BEYOND.line), beyond(a, b, BEYOND.letter - BEYOND.line)].map(([x, y], i) => ({
    ...around(x, y, 3.6),
    letter: i === 0 ? 'A' : 'B',
  }));

/** Where the scale bar lies under the frame. */
export const barY = ({ frame }: MapLayout): number => frame.y2 + UNDER.bar;
