/** The ground along a line: through every hole at its levelled height, and as the profile goes between them. */
import type { Point, ProfilePoint } from './shape.ts';

/**
 * Holes in order, profile in any order; nothing beyond both. The profile is shifted to meet each hole, its misfit shared
 * out evenly along the way to the next; where it does not reach a hole, it is taken as it is.
 */
export function groundLine(
  holes: readonly { along_m: number; ground_m: number }[],
  profile: readonly ProfilePoint[],
): Point[] {
  const stations = stationsOf(profile);
  const line = stations.map((p): Point => [p.along_m, p.elevation_m]);
  const misfits = holes.flatMap(({ along_m, ground_m }): Point[] => {
    const read = heightAt(line, along_m);
    return read === null ? [] : [[along_m, ground_m - read]];
  });
  const nodes = new Map(holes.map(({ along_m, ground_m }) => [along_m, ground_m]));
  for (const { along_m, elevation_m } of stations)
    if (!nodes.has(along_m)) nodes.set(along_m, elevation_m + held(misfits, along_m));
  return [...nodes].sort(([a], [b]) => a - b);
}

/** In order along the line; of several at one place their mean. */
function stationsOf(profile: readonly ProfilePoint[]): ProfilePoint[] {
  const known = profile.filter((p) => Number.isFinite(p.along_m) && Number.isFinite(p.elevation_m));
  return [...Map.groupBy(known, ({ along_m }) => along_m)]
    .map(([along_m, at]) => ({
      along_m,
      elevation_m: at.reduce((sum, { elevation_m }) => sum + elevation_m, 0) / at.length,
    }))
    .sort((a, b) => a.along_m - b.along_m);
}

/** Elevation of a line at a place, straight between its points; null beyond its ends. Points in order along the line. */
export function heightAt(line: readonly Point[], along_m: number): number | null {
  const after = line.findIndex(([x]) => x >= along_m);
  if (after === -1) return null;
  const [x1, y1] = line[after]!;
  if (x1 === along_m) return y1;
  if (after === 0) return null;
  const [x0, y0] = line[after - 1]!;
  return y0 + ((y1 - y0) * (along_m - x0)) / (x1 - x0);
}

/** As the line, and as its end beyond its ends; 0 where there is no line. */
export function held(line: readonly Point[], along_m: number): number {
  const [first, last] = [line[0], line.at(-1)];
  if (first === undefined || last === undefined) return 0;
  if (along_m <= first[0]) return first[1];
  if (along_m >= last[0]) return last[1];
  return heightAt(line, along_m)!;
}
