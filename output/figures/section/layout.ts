/** Where the holes of a section stand on paper: at their distance where they can, moved apart where they touch. */
import type { DateResult, HoleResult, Results, SectionResult } from '@stillstand/campaign/results';
import { placeAlong, type Scale, scale, textWidth } from '@stillstand/output/drawing';
import { printed, years } from '@stillstand/output/words';

/** What is written at a dated sample, or at several that lie too near each other for one line each. */
export interface AgeLabel {
  text: string;
  dates: { date: DateResult; elevation_m: number }[];
}

export interface Stand {
  hole: HoleResult;
  /** Left edge and width of its staff, points. */
  x: number;
  width: number;
  /** Right of the staff, for its ages, points. */
  lane: number;
  /** Along the line, m; null where it has no place on it. */
  along_m: number | null;
  /** Where it truly is on the distance staff; null where the section line is not known. */
  at: number | null;
  ground_m: number;
  bottom_m: number;
  labels: AgeLabel[];
  /** Its dated samples, from the top down. */
  dates: { date: DateResult; elevation_m: number }[];
}

/** How ages are written: beside their samples; as numbers, listed under the drawing; not at all. */
export type AgesShown = 'beside' | 'numbered' | 'marks';

export interface SectionLayout {
  /** What is drawn between the holes; null where the results have nothing of it. */
  section: SectionResult | null;
  stands: Stand[];
  /** Holes that cannot be hung, and why. */
  missing: { hole: string; why: string }[];
  /** Holes given up that another replaced: no part of the section is lost with them. */
  replaced: { hole: string; by: string }[];
  distance: Scale | null;
  /** Whether every hole stands at its true distance. */
  toScale: boolean;
  ages: AgesShown;
  /** Between left and right: the least that holds every hole with its ages at least numbered, points. */
  least: number;
  top_m: number;
  bottom_m: number;
  /** Of the drawing between top and bottom, points. */
  height: number;
}

/** Between one hole's things and the next hole's staff, points. */
const GAP = 4;
/** Left of the first hole, for what is drawn of its units there, points. */
const BEFORE = 8;
/** Width of the staff that a hole is drawn as, narrower where holes crowd, points. */
const STAFF = { most: 6, least: 3.6 } as const;
/** Where the hole itself is in its staff, as a share of the width. */
export const AXIS = 0.5;
/** From the edge of a staff to an age, where the sample's mark stands between; to a number, where it is on the staff. */
export const AGE_FROM = { beside: 8.6, numbered: 1.6, marks: 0 } as const;
/** Leading of ages, points. */
export const AGE_ROW = 7.4;
/** The least of paper a hole must have with ages written in these ways, its staff included, points. */
const LEAST_WIDTH = { beside: 9, numbered: 6, marks: 0 } as const;
/** A hole drawn this near its place is at it, points. */
const AT_ITS_PLACE = 0.5;
const LEAST_HEIGHT = 200;
const MOST_HEIGHT = 400;
/** Ages may reach this far under the lowest hole, points. */
export const UNDER = 8;

export type Hung = Omit<Stand, 'x' | 'width' | 'lane' | 'at' | 'labels'>;

/** Down to which a hole is drawn, m below its ground. */
export const depthOf = (hole: HoleResult): number =>
  Math.max(0.1, hole.penetration_m ?? 0, ...hole.units.map((u) => u.depth_bottom_m.value));

/** Holes along a section, or along the line through all, with their dated samples, and those that cannot be hung. */
export function hung(
  results: Results,
  section: SectionResult | null = null,
): {
  hung: Hung[];
  missing: SectionLayout['missing'];
  replaced: SectionLayout['replaced'];
  located: boolean;
} {
  const missing: SectionLayout['missing'] = [];
  const replaced: SectionLayout['replaced'] = [];
  const places =
    section === null ? null : new Map(section.holes.map((each, i) => [each.hole, { ...each, i }]));
  // Of a line that somebody drew, holes that are not on it are not missed.
  const isOfAll = section === null || section.line === null;
  const drawn = results.holes.filter((hole) => {
    const isOn = places === null || places.has(hole.hole);
    const by = isOn ? undefined : results.holes.find(({ replaces }) => replaces === hole.hole)?.hole;
    if (by !== undefined && places?.has(by) === true) {
      replaced.push({ hole: hole.hole, by });
      return false;
    }
    if (!isOn && !isOfAll) return false;
    const why =
      hole.ground_elevation_m === null
        ? 'height of the ground not known'
        : hole.state === 'planned'
          ? 'planned'
          : isOn
            ? null
            : 'not on the line';
    if (why !== null) missing.push({ hole: hole.hole, why });
    return why === null;
  });
  const along = (hole: HoleResult): number | null =>
    places === null ? hole.section_m : (places.get(hole.hole)?.along_m ?? null);
  const located =
    drawn.length > 0 && section?.distances !== 'unknown' && drawn.every((hole) => along(hole) !== null);
  const inOrder = (a: HoleResult, b: HoleResult): number =>
    places === null ? 0 : places.get(a.hole)!.i - places.get(b.hole)!.i;
  const holes = located
    ? [...drawn].sort((a, b) => along(a)! - along(b)! || inOrder(a, b))
    : [...drawn].sort(inOrder);
  const elevations = new Map(results.samples.map((s) => [s.sample, s.elevation_m?.value ?? null]));
  const stands = holes.map((hole) => {
    const ground_m = hole.ground_elevation_m!.value;
    const dates = results.dates
      .flatMap((date) => {
        const elevation_m = date.hole === hole.hole ? (elevations.get(date.sample) ?? null) : null;
        return elevation_m === null ? [] : [{ date, elevation_m }];
      })
      .sort((a, b) => b.elevation_m - a.elevation_m || a.date.median_cal_bp - b.date.median_cal_bp);
    return { hole, along_m: along(hole), ground_m, bottom_m: ground_m - depthOf(hole), dates };
  });
  return { hung: stands, missing, replaced, located };
}

/** Ages by hole: each its own, or numbered along the section; where a hole is too short for all, several to a number. */
function labelled(stands: readonly Hung[], ages: AgesShown, room: (stand: Hung) => number): AgeLabel[][] {
  let before = 0;
  return stands.map((stand) => {
    const first = before + 1;
    before += stand.dates.length;
    if (ages === 'marks') return [];
    if (ages === 'beside') {
      return stand.dates.map((each) => ({ text: years(each.date.median_cal_bp), dates: [each] }));
    }
    const fit = Math.max(1, Math.floor(room(stand) / AGE_ROW));
    const several = Math.ceil(stand.dates.length / fit);
    const labels: AgeLabel[] = [];
    for (let i = 0; i < stand.dates.length; i += several) {
      const dates = stand.dates.slice(i, i + several);
      const [from, to] = [first + i, first + i + dates.length - 1];
      labels.push({ text: from === to ? printed(from) : `${printed(from)}–${printed(to)}`, dates });
    }
    return labels;
  });
}

const ALL_WAYS: readonly AgesShown[] = ['beside', 'numbered', 'marks'];

/**
 * Between `left` and `right`, points; of the ways to write ages the first that has room, else the last. As high as its
 * heights and ages ask for, if not told.
 */
export function sectionLayout(
  results: Results,
  section: SectionResult | null,
  left: number,
  right: number,
  allowed: readonly AgesShown[] = ALL_WAYS,
  asked_height?: number,
): SectionLayout {
  const { hung: holes, missing, replaced, located } = hung(results, section);
  const ground = section?.ground ?? [];
  const top_m = Math.max(
    0.1,
    ...holes.map((s) => s.ground_m),
    ...ground.map(({ elevation_m }) => elevation_m),
  );
  const bottom_m = Math.min(0, ...holes.map((s) => s.bottom_m));
  const most = Math.max(0, ...holes.map((s) => s.dates.length));
  const height =
    asked_height ?? Math.min(MOST_HEIGHT, Math.max(LEAST_HEIGHT, (top_m - bottom_m) * 18, most * AGE_ROW));
  const room = (stand: Hung): number =>
    ((stand.ground_m - bottom_m) / (top_m - bottom_m)) * height + UNDER - 4;
  const inWay = (ages: AgesShown) => {
    const labels = labelled(holes, ages, room);
    const lanes = labels.map((own) =>
      own.length === 0 ? 5 : AGE_FROM[ages] + Math.max(...own.map(({ text }) => textWidth(text))) + 1.5,
    );
    const free = right - left - lanes.reduce((sum, lane) => sum + lane + GAP, 0);
    const tallest = labels.every((own, i) => own.length * AGE_ROW <= room(holes[i]!));
    return { ages, labels, lanes, width: free / Math.max(1, holes.length), tallest };
  };
  const needOf = ({ ages, lanes }: ReturnType<typeof inWay>): number =>
    lanes.reduce((sum, lane) => sum + LEAST_WIDTH[ages] + lane + GAP, 0);
  const ways = allowed.map(inWay);
  const way = ways.find(({ ages, width, tallest }) => width >= LEAST_WIDTH[ages] && tallest) ?? ways.at(-1)!;
  const { lanes, labels } = way;
  const width = Math.max(STAFF.least, Math.min(STAFF.most, way.width));
  const sizes = lanes.map((lane) => width + lane + GAP);
  const first = located ? holes[0]!.along_m! : 0;
  const last = located ? holes.at(-1)!.along_m! : 1;
  const distance =
    located && last > first
      ? scale(first, last, left + BEFORE + AXIS * width, right - lanes.at(-1)! - (1 - AXIS) * width - GAP)
      : null;
  const centres =
    distance === null
      ? holes.map((_, i) => left + ((right - left) * (i + 0.5)) / holes.length)
      : placeAlong(
          // A place is staff and ages; it is wanted where the hole itself is.
          holes.map(({ along_m }, i) => ({
            at: distance(along_m!) - AXIS * width + sizes[i]! / 2,
            size: sizes[i]!,
          })),
          left,
          right,
        );
  const need = sizes.reduce((sum, size) => sum + size, 0);
  const squeezed = Math.min(1, (right - left) / Math.max(1, need));
  const stands = holes.map((stand, i) => ({
    ...stand,
    x: centres[i]! - (sizes[i]! * squeezed) / 2,
    width: width * squeezed,
    lane: lanes[i]! * squeezed,
    at: distance === null ? null : distance(stand.along_m!),
    labels: labels[i]!,
  }));
  return {
    section,
    stands,
    missing,
    replaced,
    distance,
    toScale: distance !== null && stands.every((s) => Math.abs(s.x + s.width * AXIS - s.at!) < AT_ITS_PLACE),
    ages: way.ages,
    least: needOf(inWay('numbered')),
    top_m,
    bottom_m,
    height,
  };
}
