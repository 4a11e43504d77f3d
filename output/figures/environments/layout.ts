/** Where everything of a line through time stands, points: one time axis for sea level, holes and edge; sections below. */
import {
  curveOf,
  type EnvironmentResult,
  type LineThroughTime,
  type Results,
  type SectionResult,
} from '@stillstand/campaign/results';
import { type Scale, scale, staffStep, textWidth } from '@stillstand/output/drawing';
import { type KeyItem, keyHeight } from '../section/sediment-key.tsx';
import { type HoleBands, holeBands } from './bands.ts';
import { keyEntries } from './key.ts';
import { type PastSections, pastSections } from './past-sections.ts';

export interface Panel {
  /** "(a)" and what it shows. */
  title: string;
  /** Baseline of the title, then the upper and lower edge of what is drawn. */
  title_y: number;
  y1: number;
  y2: number;
}

export interface HoleRow {
  bands: HoleBands;
  /** Of the bands. */
  y1: number;
  y2: number;
  /** Of the lanes of beds laid down at once, over the bands. */
  lanes_y: number;
}

export interface EnvironmentsLayout {
  line: LineThroughTime;
  section: SectionResult | null;
  curve: ReturnType<typeof curveOf>;
  width: number;
  /** Ends of the time axis across. */
  left: number;
  right: number;
  time: Scale;
  step: { step: number; every: number };
  /** Baseline of the labels of the upper staff, and the upper edge of both staffs. */
  staff_y: { upper: number; lower: number };
  level: (Panel & { scale: Scale }) | null;
  holes: Panel;
  rows: HoleRow[];
  edge: (Panel & { scale: Scale; to_scale: boolean }) | null;
  past: (Pick<Panel, 'title' | 'title_y'> & PastSections) | null;
  key: { entries: KeyItem[]; y: number };
  /** Holes of the line that have no ages against depth. */
  left_out: string[];
  height: number;
}

const TITLE = 9;
/** Left of the axis: labels of holes and of staffs, points. */
const LEFT = { least: 34, most: 64 } as const;
const RIGHT = { least: 8, most: 50 } as const;
const LEVEL_HEIGHT = 64;
/** All rows of holes together, and the bands of one, points. */
const ROWS = { together: 330, least: 15, most: 27 } as const;
/** Between the bands of a hole and what is of the next: room for its dates, points. */
const UNDER_BANDS = 8;
export const LANE = 4.2;
const EDGE = { least: 78, each: 13, most: 170 } as const;

/** The two ends of the line, in the order in which the holes are drawn: the innermost first where there is an edge. */
export function holesDrawn(
  results: Results,
  line: LineThroughTime,
): { section: SectionResult | null; environments: EnvironmentResult[]; left_out: string[] } {
  const section = results.sections.find(({ row_id }) => row_id === line.row_id) ?? null;
  const labels =
    section?.holes.map(({ hole }) => hole) ??
    line.past_sections[0]?.holes.map(({ hole }) => hole) ??
    results.environments.map(({ hole }) => hole);
  const known = new Map(results.environments.map((each) => [each.hole, each]));
  const drawn = labels.flatMap((label) => known.get(label) ?? []);
  const isTurned = line.edge !== null && drawn.at(-1)?.hole === line.edge.innermost;
  return {
    section,
    environments: isTurned ? drawn.reverse() : drawn,
    left_out: labels.filter((label) => !known.has(label)),
  };
}

export function environmentsLayout(
  results: Results,
  line: LineThroughTime,
  { width }: { width: number },
): EnvironmentsLayout {
  const { section, environments, left_out } = holesDrawn(results, line);
  const widest = Math.max(0, ...environments.map(({ hole }) => textWidth(hole, { weight: 600 })));
  const widestOfLine = Math.max(0, ...(section?.holes ?? []).map(({ hole }) => textWidth(hole)));
  const left = Math.min(LEFT.most, Math.max(LEFT.least, widest + 14));
  const right =
    width -
    (line.edge === null ? RIGHT.least : Math.min(RIGHT.most, Math.max(RIGHT.least, widestOfLine + 6)));
  const { from, to } = axisOf(environments);
  const time = scale(from, to, left, right);
  const curve = curveOf(results);
  let letter = 0;
  /** The short words where the long ones have no room. */
  const titled = (words: string, short: string): string => {
    const before = `(${'abcd'[letter++]!}) `;
    return before + (textWidth(before + words, { weight: 600 }) > width ? short : words);
  };
  let y = TITLE;
  const first =
    curve === null ? null : { title: titled('relative sea level, m', 'sea level, m'), title_y: y };
  const upper = first === null ? y : y + 10;
  y = upper + 6;
  const level =
    first === null || curve === null
      ? null
      : { ...first, y1: y, y2: y + LEVEL_HEIGHT, scale: levelScale(curve, time, y, y + LEVEL_HEIGHT) };
  if (level !== null) y = level.y2 + 13;
  else y += 11;

  const title_y = y;
  const each = Math.min(
    ROWS.most,
    Math.max(ROWS.least, ROWS.together / Math.max(1, environments.length) - UNDER_BANDS),
  );
  y += 5;
  const rows = environments.map((of): HoleRow => {
    const own = holeBands(results, of, time, each);
    const lanes_y = y;
    const y1 = y + (own.lanes > 0 ? own.lanes * LANE + 1 : 0);
    y = y1 + each + UNDER_BANDS;
    return { bands: own, y1, y2: y1 + each, lanes_y };
  });
  const holes = {
    title: titled('environments; the height of a band is its probability', 'environments, by probability'),
    title_y,
    y1: title_y + 5,
    y2: y - UNDER_BANDS,
  };
  const edge = line.edge === null ? null : edgePanel(line, section, environments, titled, y + 9);
  if (edge !== null) y = edge.y2 + 3;
  const lower = y;
  y += 3.4 + 9;
  const sections = line.past_sections.length === 0 ? null : pastSections(results, line, section, width);
  const past =
    sections === null
      ? null
      : {
          title: titled(pastTitle(sections.cells.length), 'sections of the past'),
          title_y: y + 11,
          ...sections,
        };
  if (past !== null) y = past.title_y + 7 + past.height + past.below;
  const entries = keyEntries(results, environments, past === null ? null : section, width);
  return {
    line,
    section,
    curve,
    width,
    left,
    right,
    time,
    step: staffStep(time.k, width < 300 ? 9 : 14, 34),
    staff_y: { upper, lower },
    level,
    holes,
    rows,
    edge,
    past,
    key: { entries, y: y + 5 },
    left_out,
    height: y + 5 + keyHeight(entries),
  };
}

const COUNTS = [
  'no ages',
  'one age',
  'two ages',
  'three ages',
  'four ages',
  'five ages',
  'six ages',
] as const;
const pastTitle = (count: number): string =>
  `the section at ${COUNTS[count] ?? `${count} ages`}; later deposits left blank`;

/** From the age at which any hole is as likely as not on its lowest layer or a higher one, to today. */
function axisOf(environments: readonly EnvironmentResult[]): { from: number; to: number } {
  const all = environments.flatMap(({ ages_cal_bp }) => [...ages_cal_bp]);
  if (all.length === 0) return { from: 1000, to: 0 };
  const youngest = Math.min(...all);
  const known = environments.flatMap(({ ages_cal_bp, spells }) => {
    const before = spells.find(({ kind }) => kind === 'before');
    return [...ages_cal_bp].filter((_, i) => (before?.probability[i] ?? 0) < 0.5);
  });
  const oldest = known.length === 0 ? Math.max(...all) : Math.max(...known);
  // Years of this age are no time of a coast.
  const to = youngest < 0 && oldest > 1000 ? 0 : youngest;
  const from = Math.min(Math.max(...all), oldest + 0.03 * (oldest - to));
  return { from: from > to ? from : to + 1, to };
}

/** As far as the median goes; what is wider of the band is cut at the frame. */
function levelScale(
  curve: NonNullable<EnvironmentsLayout['curve']>,
  time: Scale,
  y1: number,
  y2: number,
): Scale {
  const within = [...curve.level_m.median.keys()].filter((i) => {
    const age = curve.ages_cal_bp[i]!;
    return age <= time.from && age >= time.to;
  });
  const of = (values: ArrayLike<number>): number[] => within.map((i) => values[i]!);
  const [medians, upper] = [of(curve.level_m.median), of(curve.level_m.upper95)];
  const high = Math.max(0.5, ...upper.filter((_, i) => medians[i]! > -1));
  const low = Math.min(-0.5, ...medians);
  const room = 0.06 * (high - low);
  return scale(high + room, low - room, y1, y2);
}

function edgePanel(
  line: LineThroughTime,
  section: SectionResult | null,
  environments: readonly EnvironmentResult[],
  titled: (words: string, short: string) => string,
  title_y: number,
): NonNullable<EnvironmentsLayout['edge']> {
  const places =
    section?.holes.map(({ along_m }) => along_m) ?? line.edge!.passages.map(({ along_m }) => along_m);
  const [first, last] = [Math.min(0, ...places), Math.max(1, ...places)];
  const to_scale = section === null || section.distances === 'measured';
  const y1 = title_y + 8;
  const y2 = y1 + Math.min(EDGE.most, Math.max(EDGE.least, EDGE.each * places.length));
  const alongOf = (hole: string | undefined): number =>
    section?.holes.find((each) => each.hole === hole)?.along_m ?? 0;
  // The innermost on top, as the rows have it.
  const isTurned = alongOf(environments[0]?.hole) > alongOf(environments.at(-1)?.hole);
  return {
    title: to_scale
      ? titled('position of the edge along the line, m', 'edge along the line, m')
      : titled('position of the edge along the line, not to scale', 'edge, not to scale'),
    title_y,
    y1,
    y2,
    scale: isTurned ? scale(last, first, y1 + 4, y2 - 4) : scale(first, last, y1 + 4, y2 - 4),
    to_scale,
  };
}
