/** A levelled line held at the points whose elevation is known: misclosures spread by distance. */
import { square } from '@stillstand/science/base';
import type { Station } from './level-book.ts';

/** A point whose elevation is known beforehand, all on one datum; 1 sigma. */
export interface FixedPoint {
  point: string;
  elevation_m: number;
  sigma_m: number;
}

export interface LevelledPoint {
  point: string;
  elevation_m: number;
  /** 1 sigma of the levelling alone: independent between points that stand in different set-ups. */
  sigma_m: number;
  /** Fixed points whose error this elevation shares, and how much of it: elevation error = … + Σ weight × theirs. */
  shared: { point: string; weight: number; sigma_m: number }[];
}

/** Levelled minus known at a fixed point, against the fixed point before it. */
export interface Closure {
  point: string;
  misclosure_m: number;
  allowed_m: number;
  within: boolean;
  length_km: number;
}

export type Adjusted = LevelledPoint & { row_id: string };

/** Misclosures spread by distance; sigma of a line held at both ends is σ²·d·(1 − d/D), of an open one σ²·d. */
export function adjustPoints(
  stations: readonly Station[],
  ties: readonly Station[],
  known: ReadonlyMap<string, FixedPoint>,
  zero: number,
  closures: readonly Closure[],
  settings: { sigma_mm_sqrt_km: number; reading_sigma_m: number },
): Adjusted[] {
  // the misclosure of a closed line is itself a measurement of the sigma per √km
  let worst = settings.sigma_mm_sqrt_km / 1000;
  for (const c of closures) {
    if (c.length_km > 0) worst = Math.max(worst, Math.abs(c.misclosure_m) / Math.sqrt(c.length_km));
  }
  const tiesAt = new Set(ties);
  const held = (tie: Station) => known.get(tie.point)!.elevation_m - (tie.height + zero);
  let next = 0;
  return stations.map((station) => {
    const single = station.intermediate ? 2 * square(settings.reading_sigma_m) : 0;
    if (tiesAt.has(station)) {
      next++;
      const f = known.get(station.point)!;
      return {
        row_id: station.row_id,
        point: station.point,
        elevation_m: f.elevation_m,
        sigma_m: 0,
        shared: [{ point: f.point, weight: 1, sigma_m: f.sigma_m }],
      };
    }
    const a = ties[next - 1] ?? null;
    const b = ties[next] ?? null;
    const raw = station.height + zero;
    if (a !== null && b !== null) {
      const length = b.km - a.km;
      const t = length > 0 ? (station.km - a.km) / length : 0.5;
      return {
        row_id: station.row_id,
        point: station.point,
        elevation_m: raw + held(a) * (1 - t) + held(b) * t,
        sigma_m: Math.sqrt(worst * worst * length * t * (1 - t) + single),
        shared: sharesOf(known.get(a.point)!, 1 - t, known.get(b.point)!, t),
      };
    }
    const tie = (a ?? b)!;
    const f = known.get(tie.point)!;
    return {
      row_id: station.row_id,
      point: station.point,
      elevation_m: raw + held(tie),
      sigma_m: Math.sqrt(worst * worst * Math.abs(station.km - tie.km) + single),
      shared: [{ point: f.point, weight: 1, sigma_m: f.sigma_m }],
    };
  });
}

function sharesOf(a: FixedPoint, wa: number, b: FixedPoint, wb: number): LevelledPoint['shared'] {
  if (a.point === b.point) return [{ point: a.point, weight: 1, sigma_m: a.sigma_m }];
  return [
    { point: a.point, weight: wa, sigma_m: a.sigma_m },
    { point: b.point, weight: wb, sigma_m: b.sigma_m },
  ].filter((s) => s.weight > 0);
}

export function meanOfEach(points: readonly Adjusted[]): LevelledPoint[] {
  const groups = new Map<string, Adjusted[]>();
  for (const p of points) {
    const group = groups.get(p.point);
    if (group === undefined) groups.set(p.point, [p]);
    else group.push(p);
  }
  return [...groups.values()].map((group) => {
    const shared = new Map<string, { point: string; weight: number; sigma_m: number }>();
    for (const p of group) {
      for (const s of p.shared) {
        const sum = shared.get(s.point) ?? { ...s, weight: 0 };
        sum.weight += s.weight / group.length;
        shared.set(s.point, sum);
      }
    }
    return {
      point: group[0]!.point,
      elevation_m: group.reduce((sum, p) => sum + p.elevation_m, 0) / group.length,
      // the largest, not divided by √n: sights of one loop are not independent
      sigma_m: Math.max(...group.map((p) => p.sigma_m)),
      shared: [...shared.values()],
    };
  });
}
