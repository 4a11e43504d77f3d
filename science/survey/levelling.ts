/** A levelling loop: its book, held at its fixed points. See docs/methods/survey.md. */
import {
  type Adjusted,
  adjustPoints,
  type Closure,
  type FixedPoint,
  type LevelledPoint,
  meanOfEach,
} from './level-adjustment.ts';
import { type BookSums, type LevelSight, readLevelBook, type Station } from './level-book.ts';
import type { LevellingFinding } from './level-finding.ts';

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
  /** Height of collimation of the set-up that this line opens, as reduced; null where it opens none. */
  collimation_m: number | null;
}

export interface LevelLoop {
  lines: LevelLine[];
  /** Every point of the book, in the order it first comes; a point sighted twice has the mean. */
  points: LevelledPoint[];
  /** Σ back − Σ fore, Σ rises − Σ falls, last − first reduced level: three equal numbers or the book is wrong. */
  check: { sights_m: number; rises_m: number; levels_m: number; agrees: boolean };
  sums: BookSums;
  /** Set-ups that a fore sight has closed, and whether the last is still open. */
  setups: number;
  isOpen: boolean;
  length_km: number;
  /** Levelled minus known at each later fixed point in turn. */
  closures: Closure[];
  findings: LevellingFinding[];
}

/** Reduces one book in the order given. Nothing throws: a line that cannot be used is named and left out. */
export function reduceLoop(
  sights: readonly LevelSight[],
  fixed: readonly FixedPoint[],
  settings: LevelSettings = levelDefaults,
): LevelLoop {
  const book = readLevelBook(sights, settings.setup_m);
  const { stations, check } = book;
  const findings = [...book.findings];
  const known = new Map(fixed.map((f) => [f.point, f]));
  const last = stations[stations.length - 1];

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
  const closures = closuresOf(ties, known, settings);
  for (const { tie, closure } of closures) {
    if (closure.within) continue;
    findings.push({
      code: 'level-misclosure',
      severity: 'warning',
      row_id: tie.row_id,
      found: `misclosure ${(closure.misclosure_m * 1000).toFixed(1)} mm over ${closure.length_km.toFixed(3)} km`,
      expected: `at most ${(closure.allowed_m * 1000).toFixed(1)} mm`,
      fix: 'Look for a misread staff; level the loop again. Used, with a sigma that the misclosure sets.',
    });
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
  if (!check.agrees && last !== undefined) {
    findings.push({
      code: 'level-arithmetic',
      severity: 'error',
      row_id: last.row_id,
      found: `Σ back − Σ fore ${check.sights_m.toFixed(3)} m, Σ rises − Σ falls ${check.rises_m.toFixed(3)} m`,
      expected: 'two equal numbers',
      fix: 'A line of the book is missing or unused; see the lines named above.',
    });
  }

  const found = closures.map(({ closure }) => closure);
  const points: Adjusted[] = zero === null ? [] : adjustPoints(stations, ties, known, zero, found, settings);
  const adjusted = new Map(points.map((p) => [p.row_id, p.elevation_m]));
  return {
    lines: book.lines.map(({ row_id, point, rise_m, height_m, collimation_m }) => ({
      row_id,
      point,
      rise_m,
      reduced_m: zero === null || height_m === null ? null : height_m + zero,
      adjusted_m: height_m === null ? null : (adjusted.get(row_id) ?? null),
      collimation_m: zero === null || collimation_m === null ? null : collimation_m + zero,
    })),
    points: meanOfEach(points),
    check,
    sums: book.sums,
    setups: book.setups,
    isOpen: book.isOpen,
    length_km: book.length_km,
    closures: found,
    findings,
  };
}

/** Each fixed point on the line against the one before it. */
function closuresOf(
  ties: readonly Station[],
  known: ReadonlyMap<string, FixedPoint>,
  settings: LevelSettings,
): { tie: Station; closure: Closure }[] {
  return ties.slice(1).map((to, i) => {
    const from = ties[i]!;
    const length_km = to.km - from.km;
    const misclosure_m =
      to.height - from.height - (known.get(to.point)!.elevation_m - known.get(from.point)!.elevation_m);
    const allowed_m = (settings.allowed_mm_sqrt_km * Math.sqrt(length_km)) / 1000;
    // readings are whole millimetres: a limit is not passed by rounding
    const within = Math.abs(misclosure_m) <= allowed_m + 1e-9;
    return { tie: to, closure: { point: to.point, misclosure_m, allowed_m, within, length_km } };
  });
}
