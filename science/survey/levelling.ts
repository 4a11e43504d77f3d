/**
 * A levelling loop by rise and fall. The book is a list of staff readings in order: a back sight opens a set-up, intermediate
 * sights stand in it, a fore sight closes it; a change point has the fore sight of one set-up and the back sight of
 * the next. See docs/methods/survey.md.
 */
import { square } from '@stillstand/science/base';

/** One line of the level book; staff readings and the length of the sight pair (back + fore) in metres. */
export interface LevelSight {
  row_id: string;
  point: string;
  backsight_m: number | null;
  intermediate_m: number | null;
  foresight_m: number | null;
  /** On the line of the fore sight: back sight plus fore sight of the set-up it closes. */
  distance_m: number | null;
}

/** A point whose elevation is known beforehand, all on one datum; 1 sigma. */
export interface FixedPoint {
  point: string;
  elevation_m: number;
  sigma_m: number;
}

export interface LevelSettings {
  /** Largest misclosure allowed, mm per √km. */
  allowed_mm_sqrt_km: number;
  /** 1 sigma of levelling, mm per √km, unless the misclosure shows worse. */
  sigma_mm_sqrt_km: number;
  /** 1 sigma of one staff reading, m: what an intermediate sight adds. */
  reading_sigma_m: number;
  /** Length of a set-up whose distance is not given, m. */
  setup_m: number;
}

/** Third order (FGCC 1984: 12 mm·√km); sigma a third of it; staff read to 1 mm. The last three: common practice, no source. */
export const levelDefaults: LevelSettings = {
  allowed_mm_sqrt_km: 12,
  sigma_mm_sqrt_km: 4,
  reading_sigma_m: 0.001,
  setup_m: 60,
};

export interface LevelLine {
  row_id: string;
  point: string;
  /** Positive up from the line before; null on the first line. */
  rise_m: number | null;
  /** As reduced from the first fixed point; null where none is known. */
  reduced_m: number | null;
  /** After adjustment. */
  adjusted_m: number | null;
}

export interface LevelledPoint {
  point: string;
  elevation_m: number;
  /** 1 sigma of the levelling alone: independent between points that stand in different set-ups. */
  sigma_m: number;
  /** Fixed points whose error this elevation shares, and how much of it: elevation error = … + Σ weight × theirs. */
  shared: { point: string; weight: number; sigma_m: number }[];
}

export interface LevellingFinding {
  code:
    | 'level-arithmetic'
    | 'level-misclosure'
    | 'level-not-closed'
    | 'level-no-fixed-point'
    | 'level-sight-missing'
    | 'level-sight-unused'
    | 'level-distance-assumed';
  severity: 'error' | 'warning' | 'note';
  row_id: string;
  found: string;
  expected: string;
  fix: string;
}

export interface LevelLoop {
  lines: LevelLine[];
  /** Every point of the book, in the order it first comes; a point sighted twice has the mean. */
  points: LevelledPoint[];
  /** Σ back − Σ fore, Σ rises − Σ falls, last − first reduced level: three equal numbers or the book is wrong. */
  check: { sights_m: number; rises_m: number; levels_m: number; agrees: boolean };
  length_km: number;
  /** Levelled minus known at each later fixed point in turn. */
  closures: { point: string; misclosure_m: number; allowed_m: number; within: boolean; length_km: number }[];
  findings: LevellingFinding[];
}

interface Station {
  row_id: string;
  point: string;
  height: number;
  /** Along the line, km, to the last change point. */
  km: number;
  intermediate: boolean;
}

/** Reduces one book in the order given. Nothing throws: a line that cannot be used is named and left out. */
export function reduceLoop(
  sights: readonly LevelSight[],
  fixed: readonly FixedPoint[],
  settings: LevelSettings = levelDefaults,
): LevelLoop {
  const findings: LevellingFinding[] = [];
  const lines: LevelLine[] = [];
  const stations: Station[] = [];
  const known = new Map(fixed.map((f) => [f.point, f]));
  const given = sights.filter((s) => s.foresight_m !== null && s.distance_m !== null && s.distance_m > 0);
  const usual =
    given.length > 0 ? given.reduce((sum, s) => sum + s.distance_m!, 0) / given.length : settings.setup_m;
  let assumed: LevelSight | null = null;
  let before: number | null = null;
  let height = 0;
  let km = 0;
  let backs = 0;
  let fores = 0;
  let rises = 0;
  let closedBy: number | null = null;

  for (const sight of sights) {
    const { row_id, point, backsight_m: back, intermediate_m: between, foresight_m: fore } = sight;
    const read = fore ?? between;
    const fault = lineFault(sight, before);
    if (fault !== null) {
      findings.push({ code: 'level-sight-unused', severity: 'error', row_id, ...fault });
      lines.push({ row_id, point, rise_m: null, reduced_m: null, adjusted_m: null });
      continue;
    }
    let rise: number | null = null;
    if (read !== null && before !== null) {
      rise = before - read;
      height += rise;
      rises += rise;
      before = read;
    }
    if (fore !== null) {
      if (sight.distance_m === null || !(sight.distance_m > 0)) assumed ??= sight;
      km += (sight.distance_m !== null && sight.distance_m > 0 ? sight.distance_m : usual) / 1000;
      closedBy = fore;
      fores += fore;
      before = null;
    }
    if (back !== null) {
      backs += back;
      before = back;
      closedBy = null;
    }
    stations.push({ row_id, point, height, km, intermediate: fore === null && back === null });
    lines.push({ row_id, point, rise_m: rise, reduced_m: height, adjusted_m: null });
  }

  const last = stations[stations.length - 1];
  if (assumed !== null) {
    findings.push({
      code: 'level-distance-assumed',
      severity: 'note',
      row_id: assumed.row_id,
      found: 'no distance',
      expected: 'back sight plus fore sight of the set-up, m',
      fix: `Taken as ${usual.toFixed(0)} m, ${given.length > 0 ? 'the mean of the others' : 'a setting'}.`,
    });
  }
  // a book that stops on an intermediate sight has an open set-up, so its back sight has no partner
  if (last !== undefined && closedBy === null) {
    findings.push({
      code: 'level-sight-missing',
      severity: 'warning',
      row_id: last.row_id,
      found: 'a book that ends without a fore sight',
      expected: 'a fore sight on the last point',
      fix: 'Enter the last reading as a fore sight.',
    });
  }

  // tie the line to its first fixed point, then adjust between one fixed point and the next
  const ties = stations.filter((s) => !s.intermediate && known.has(s.point));
  const start = ties[0];
  const zero = start === undefined ? null : known.get(start.point)!.elevation_m - start.height;
  if (zero === null && last !== undefined) {
    findings.push({
      code: 'level-no-fixed-point',
      severity: 'error',
      row_id: last.row_id,
      found: `points ${[...new Set(stations.map((s) => s.point))].slice(0, 6).join(', ')}`,
      expected: 'one of them a bench mark with an elevation',
      fix: 'Add the bench mark, or give the point the name it has among the bench marks.',
    });
  }
  const closures: LevelLoop['closures'] = [];
  for (let i = 1; i < ties.length; i++) {
    const from = ties[i - 1]!;
    const to = ties[i]!;
    const length_km = to.km - from.km;
    const misclosure_m =
      to.height - from.height - (known.get(to.point)!.elevation_m - known.get(from.point)!.elevation_m);
    const allowed_m = (settings.allowed_mm_sqrt_km * Math.sqrt(length_km)) / 1000;
    // readings are whole millimetres: a limit is not passed by rounding
    const within = Math.abs(misclosure_m) <= allowed_m + 1e-9;
    closures.push({ point: to.point, misclosure_m, allowed_m, within, length_km });
    if (!within) {
      findings.push({
        code: 'level-misclosure',
        severity: 'warning',
        row_id: to.row_id,
        found: `misclosure ${(misclosure_m * 1000).toFixed(1)} mm over ${length_km.toFixed(3)} km`,
        expected: `at most ${(allowed_m * 1000).toFixed(1)} mm`,
        fix: 'Look for a misread staff; level the loop again. Used, with a sigma that the misclosure sets.',
      });
    }
  }
  if (zero !== null && closures.length === 0 && last !== undefined) {
    findings.push({
      code: 'level-not-closed',
      severity: 'warning',
      row_id: last.row_id,
      found: 'a line that returns to no fixed point',
      expected: 'a loop closed on a bench mark',
      fix: 'Close the loop; until then nothing shows a misread staff.',
    });
  }

  const points = zero === null ? [] : adjustPoints(stations, ties, known, zero, closures, settings);
  const where = new Map(points.map((p) => [p.row_id, p.elevation_m]));
  for (const line of lines) {
    if (line.reduced_m === null) continue;
    line.reduced_m = zero === null ? null : line.reduced_m + zero;
    line.adjusted_m = where.get(line.row_id) ?? null;
  }

  // the book check holds for closed set-ups only: the open one has a back sight with no fore sight
  const sights_m = closedBy === null && before !== null ? backs - before - fores : backs - fores;
  const levels_m = last === undefined ? 0 : last.height - stations[0]!.height;
  const agrees = Math.abs(sights_m - rises) < 5e-7 && Math.abs(rises - levels_m) < 5e-7;
  if (!agrees && last !== undefined) {
    findings.push({
      code: 'level-arithmetic',
      severity: 'error',
      row_id: last.row_id,
      found: `Σ back − Σ fore ${sights_m.toFixed(3)} m, Σ rises − Σ falls ${rises.toFixed(3)} m`,
      expected: 'two equal numbers',
      fix: 'A line of the book is missing or unused; see the lines named above.',
    });
  }
  return {
    lines,
    points: meanOfEach(points),
    check: { sights_m, rises_m: rises, levels_m, agrees },
    length_km: km,
    closures,
    findings,
  };
}

function lineFault(sight: LevelSight, before: number | null) {
  const { backsight_m: back, intermediate_m: between, foresight_m: fore } = sight;
  const readings = [back, between, fore].filter((r) => r !== null);
  const found = `back ${back ?? '–'}, between ${between ?? '–'}, fore ${fore ?? '–'}`;
  if (readings.some((r) => !Number.isFinite(r))) {
    return { found, expected: 'staff readings in metres', fix: 'Correct the reading.' };
  }
  if (readings.length === 0 || (between !== null && readings.length > 1)) {
    return {
      found,
      expected: 'a back sight, a fore sight, both (change point), or an intermediate sight alone',
      fix: 'Enter each reading in its own column.',
    };
  }
  if (before === null && (fore !== null || between !== null)) {
    return {
      found: `${found}, with no back sight before it`,
      expected: 'a back sight that opens the set-up',
      fix: 'Add the missing back sight; this line and those to the next back sight are not used.',
    };
  }
  if (before !== null && fore === null && back !== null) {
    return {
      found: `${found}, while a set-up is open`,
      expected: 'a fore sight on the change point',
      fix: 'Add the fore sight of the set-up before it; this line is not used.',
    };
  }
  return null;
}

type Adjusted = LevelledPoint & { row_id: string };

/** Misclosures spread by distance; sigma of a line held at both ends is σ²·d·(1 − d/D), of an open one σ²·d. */
function adjustPoints(
  stations: readonly Station[],
  ties: readonly Station[],
  known: ReadonlyMap<string, FixedPoint>,
  zero: number,
  closures: LevelLoop['closures'],
  settings: LevelSettings,
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

function meanOfEach(points: readonly Adjusted[]): LevelledPoint[] {
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
