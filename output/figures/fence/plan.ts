/** The lines of a fence in plan: where their holes stand, and the pieces between holes and crossings, the farthest first. */
import type { HoleResult, Results, SectionResult } from '@stillstand/campaign/results';
import { onLine, type Position } from '@stillstand/science/survey';

/** Metres east and north of the first hole. */
export type Plan = readonly [east_m: number, north_m: number];

export interface FenceLine {
  section: SectionResult;
  /** Its holes in their order. */
  holes: { hole: HoleResult; along_m: number; plan: Plan }[];
}

/** A stretch of a line that is straight in plan and that no other line crosses. */
export interface FencePiece {
  line: FenceLine;
  from_m: number;
  to_m: number;
}

/** Lines of at least two holes at known distances with coordinates and levelled ground. */
export function fenceLines(results: Results): FenceLine[] {
  const holes = new Map(results.holes.map((hole) => [hole.hole, hole]));
  const isPlaced = (hole: HoleResult | undefined): hole is HoleResult & Position =>
    hole !== undefined &&
    Math.abs(hole.latitude_deg ?? Number.NaN) <= 90 &&
    Number.isFinite(hole.longitude_deg ?? Number.NaN) &&
    hole.ground_elevation_m !== null;
  const placed = results.sections
    .filter(({ distances }) => distances === 'measured')
    .map((section) => ({
      section,
      holes: section.holes.flatMap(({ hole, along_m }) => {
        const of = holes.get(hole);
        return isPlaced(of) ? [{ hole: of, along_m }] : [];
      }),
    }))
    .filter(({ holes: own }) => own.length > 1);
  const origin = placed[0]?.holes[0]?.hole;
  if (origin === undefined) return [];
  return placed.map(({ section, holes: own }) => ({
    section,
    holes: own
      .map(({ hole, along_m }) => {
        const { along_m: north, offset_m: east } = onLine(origin, 0, hole);
        return { hole, along_m, plan: [east, north] as const };
      })
      .sort((a, b) => a.along_m - b.along_m),
  }));
}

/** In plan at a place along, straight between holes and on beyond the outermost. */
export function planAt({ holes }: FenceLine, along_m: number): Plan {
  const after = holes.findIndex((each) => each.along_m > along_m);
  const i = after === -1 ? holes.length - 1 : Math.max(1, after);
  const [a, b] = [holes[i - 1]!, holes[i]!];
  const share = b.along_m === a.along_m ? 0 : (along_m - a.along_m) / (b.along_m - a.along_m);
  return [a.plan[0] + share * (b.plan[0] - a.plan[0]), a.plan[1] + share * (b.plan[1] - a.plan[1])];
}

/** Beyond the outermost holes as far as anything is drawn there, at most this share of the line. */
const BEYOND = 0.1;

/** Of all lines, cut where they cross in plan; from north to south, as they are drawn. */
export function fencePieces(lines: readonly FenceLine[]): FencePiece[] {
  const stretches = lines.flatMap((line) => {
    const first = line.holes[0]!.along_m;
    const last = line.holes.at(-1)!.along_m;
    const reach = BEYOND * (last - first);
    const drawn = line.section.bodies.flatMap(({ outline }) => outline.map(({ along_m }) => along_m));
    const from = Math.max(first - reach, Math.min(first, ...drawn));
    const to = Math.min(last + reach, Math.max(last, ...drawn));
    const cuts = [...new Set([from, ...line.holes.map(({ along_m }) => along_m), to])];
    return cuts.slice(1).map((to_m, i): FencePiece => ({ line, from_m: cuts[i]!, to_m }));
  });
  return stretches
    .flatMap((piece) => {
      const cuts = stretches
        .filter(({ line }) => line !== piece.line)
        .flatMap((other) => crossing(piece, other) ?? [])
        .sort((a, b) => a - b);
      const ends = [piece.from_m, ...cuts, piece.to_m];
      return ends.slice(1).map((to_m, i): FencePiece => ({ line: piece.line, from_m: ends[i]!, to_m }));
    })
    .filter(({ from_m, to_m }) => to_m - from_m > 1e-6)
    .sort((a, b) => northOf(b) - northOf(a));
}

/** Of its middle, m. */
export const northOf = ({ line, from_m, to_m }: FencePiece): number => planAt(line, (from_m + to_m) / 2)[1];

/** Where along the first the second crosses it in plan, inside both; null where it does not. */
function crossing(a: FencePiece, b: FencePiece): number | null {
  const [p, q] = [planAt(a.line, a.from_m), planAt(a.line, a.to_m)];
  const [r, s] = [planAt(b.line, b.from_m), planAt(b.line, b.to_m)];
  const [ax, ay, bx, by] = [q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]];
  const cross = ax * by - ay * bx;
  if (Math.abs(cross) < 1e-9) return null;
  const t = ((r[0] - p[0]) * by - (r[1] - p[1]) * bx) / cross;
  const u = ((r[0] - p[0]) * ay - (r[1] - p[1]) * ax) / cross;
  return t > 1e-6 && t < 1 - 1e-6 && u > -1e-6 && u < 1 + 1e-6 ? a.from_m + t * (a.to_m - a.from_m) : null;
}

/** Whether two of the lines cross or share a hole in plan. */
export function doLinesMeet(lines: readonly FenceLine[]): boolean {
  return lines.some((a, i) =>
    lines
      .slice(i + 1)
      .some(
        (b) =>
          a.holes.some(({ hole }) => b.holes.some((other) => other.hole.hole === hole.hole)) ||
          a.holes
            .slice(1)
            .some((end, j) =>
              b.holes
                .slice(1)
                .some(
                  (otherEnd, k) =>
                    crossing(
                      { line: a, from_m: a.holes[j]!.along_m, to_m: end.along_m },
                      { line: b, from_m: b.holes[k]!.along_m, to_m: otherEnd.along_m },
                    ) !== null,
                ),
            ),
      ),
  );
}
