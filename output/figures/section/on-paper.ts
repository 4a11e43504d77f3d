/** From metres along a section to points on paper: straight between holes, which may stand apart from their true places. */
import type { SectionResult } from '@stillstand/campaign/results';
import type { Scale } from '@stillstand/output/drawing';
import { AXIS, type SectionLayout, type Stand } from './layout.ts';

export type Paper = readonly [x: number, y: number];
type Place = readonly [along_m: number, elevation_m: number];
type Places = SectionResult['ground'];

export const pairs = (places: Places): Place[] =>
  places.map(({ along_m, elevation_m }) => [along_m, elevation_m]);

/** Beyond the outermost holes, points: left there is the staff of elevations. */
const BEYOND = { left: 19, right: 24 } as const;

export interface SectionPaper {
  /** Points across of a place along. At the place of several holes: of the first, or with `isLast` of the last. */
  x: (along_m: number, isLast?: boolean) => number;
  y: Scale;
  /** What is drawn lies between these, metres along. */
  from_m: number;
  to_m: number;
}

const axisOf = (stand: Stand): number => stand.x + stand.width * AXIS;

/** Null where no hole has a place along. */
export function sectionPaper(layout: SectionLayout, y: Scale, right: number): SectionPaper | null {
  const knots = layout.stands.flatMap((stand) =>
    stand.along_m === null ? [] : [{ along_m: stand.along_m, x: axisOf(stand) }],
  );
  const first = knots[0];
  const last = knots.at(-1);
  if (first === undefined || last === undefined) return null;
  const per_m = last.along_m > first.along_m ? (last.x - first.x) / (last.along_m - first.along_m) : 1;
  const x = (along_m: number, isLast = false): number => {
    if (along_m < first.along_m) return first.x + (along_m - first.along_m) * per_m;
    if (along_m > last.along_m) return last.x + (along_m - last.along_m) * per_m;
    const here = knots.filter((knot) => knot.along_m === along_m);
    if (here.length > 0) return (isLast ? here.at(-1)! : here[0]!).x;
    const after = knots.findIndex((knot) => knot.along_m > along_m);
    const [a, b] = [knots[after - 1]!, knots[after]!];
    return a.x + ((along_m - a.along_m) / (b.along_m - a.along_m)) * (b.x - a.x);
  };
  return {
    x,
    y,
    from_m: first.along_m - BEYOND.left / per_m,
    to_m: last.along_m + Math.max(0, Math.min(BEYOND.right, right - last.x)) / per_m,
  };
}

/** A line on paper, cut at the ends of what is drawn; vertices are added where it passes a hole, since paper bends there. */
export function lineOnPaper(line: Places, paper: SectionPaper, holes_m: readonly number[]): Paper[] {
  return bentAt(cutLine(pairs(line), paper), holes_m).map(([along, elevation]) => [
    paper.x(along),
    paper.y(elevation),
  ]);
}

/** A closed outline on paper. */
export function outlineOnPaper(outline: Places, paper: SectionPaper, holes_m: readonly number[]): Paper[] {
  const inside = cutOutline(pairs(outline), paper);
  if (inside.length === 0) return [];
  // Left of a place where several holes stand it ends at the first of them, right of it at the last.
  const mid = inside.reduce((sum, [along]) => sum + along, 0) / inside.length;
  return bentAt([...inside, inside[0]!], holes_m)
    .slice(0, -1)
    .map(([along, elevation]) => [paper.x(along, along < mid), paper.y(elevation)]);
}

/** With vertices at the places of holes. */
function bentAt(line: readonly Place[], holes_m: readonly number[]): readonly Place[] {
  return line.flatMap((point, i) => {
    const before = line[i - 1];
    if (before === undefined) return [point];
    const [a, b] = [before, point];
    const between = holes_m
      .filter((at) => (at - a[0]) * (at - b[0]) < 0)
      .sort((p, q) => (p - q) * (b[0] > a[0] ? 1 : -1))
      .map((at) => [at, a[1] + ((at - a[0]) / (b[0] - a[0])) * (b[1] - a[1])] as const);
    return [...between, point];
  });
}

const at = ([x1, y1]: Place, [x2, y2]: Place, x: number): Place => [
  x,
  y1 + ((x - x1) / (x2 - x1)) * (y2 - y1),
];

/** The part of a line, running along, between the ends of what is drawn. */
export function cutLine(
  line: readonly Place[],
  { from_m, to_m }: Pick<SectionPaper, 'from_m' | 'to_m'>,
): readonly Place[] {
  return line.flatMap((point, i) => {
    const before = line[i - 1];
    const out: Place[] = [];
    if (before !== undefined) {
      for (const end of before[0] < point[0] ? [from_m, to_m] : [to_m, from_m]) {
        if ((before[0] - end) * (point[0] - end) < 0) out.push(at(before, point, end));
      }
    }
    if (point[0] >= from_m && point[0] <= to_m) out.push(point);
    return out;
  });
}

/** The part of an outline between the ends of what is drawn (a closed outline cut by a straight line, one side after the other). */
export function cutOutline(
  outline: readonly Place[],
  { from_m, to_m }: Pick<SectionPaper, 'from_m' | 'to_m'>,
): readonly Place[] {
  const cut = (points: readonly Place[], end: number, isIn: (along: number) => boolean): readonly Place[] =>
    points.flatMap((point, i) => {
      const before = points[(i + points.length - 1) % points.length]!;
      const out: Place[] = [];
      if (isIn(before[0]) !== isIn(point[0])) out.push(at(before, point, end));
      if (isIn(point[0])) out.push(point);
      return out;
    });
  return cut(
    cut(outline, from_m, (along) => along >= from_m),
    to_m,
    (along) => along <= to_m,
  );
}

/** Places of holes along, those between which a line may bend on paper. */
export const holesAlong = (section: SectionResult): number[] => [
  ...new Set(section.holes.map(({ along_m }) => along_m)),
];
