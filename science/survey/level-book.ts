/**
 * A level book by rise and fall. It is a list of staff readings in order: a back sight opens a set-up, intermediate sights
 * stand in it, a fore sight closes it; a change point has the fore sight of one set-up and the back sight of the next.
 */
import type { LevellingFinding } from './level-finding.ts';
import { LONGEST_STAFF_M, slippedPoint, staffDoubt } from './staff-reading.ts';

/** One line of the level book; staff readings (negative: the staff held upside down) and the length of the sight pair (back + fore) in metres. */
export interface LevelSight {
  row_id: string;
  point: string;
  backsight_m: number | null;
  intermediate_m: number | null;
  foresight_m: number | null;
  /** On the line of the fore sight: back sight plus fore sight of the set-up it closes. */
  distance_m: number | null;
}

/** A point of the book, its height above the first. */
export interface Station {
  row_id: string;
  point: string;
  height: number;
  /** Along the line, km, to the last change point. */
  km: number;
  intermediate: boolean;
}

interface BookLine {
  row_id: string;
  point: string;
  /** Positive up from the line before; null on the first line, and on one that is not used. */
  rise_m: number | null;
  /** Above the first point; null where the line is not used. */
  height_m: number | null;
  /** Line of sight of the set-up that this line opens, above the first point; null where it opens none. */
  collimation_m: number | null;
}

interface LevelBook {
  lines: BookLine[];
  stations: Station[];
  /** Σ back − Σ fore, Σ rises − Σ falls, last − first level: three equal numbers or the book is wrong. */
  check: { sights_m: number; rises_m: number; levels_m: number; agrees: boolean };
  sums: BookSums;
  /** Set-ups that a fore sight has closed. */
  setups: number;
  /** The last set-up has no fore sight yet. */
  isOpen: boolean;
  length_km: number;
  findings: LevellingFinding[];
}

/** Foot of the columns, m; falls as a positive sum. */
export interface BookSums {
  back_m: number;
  fore_m: number;
  rise_m: number;
  fall_m: number;
}

/** Reads a book in the order given. `setup_m`: length of a set-up where no distance is given at all. */
export function readLevelBook(sights: readonly LevelSight[], setup_m: number): LevelBook {
  const findings: LevellingFinding[] = [];
  const lines: BookLine[] = [];
  const stations: Station[] = [];
  const given = sights.filter((s) => s.foresight_m !== null && s.distance_m !== null && s.distance_m > 0);
  const usual = given.length > 0 ? given.reduce((sum, s) => sum + s.distance_m!, 0) / given.length : setup_m;
  let assumed: LevelSight | null = null;
  let before: number | null = null;
  let height = 0;
  let km = 0;
  let backs = 0;
  let fores = 0;
  let rises = 0;
  let falls = 0;
  let setups = 0;
  let closedBy: number | null = null;

  for (const sight of sights) {
    const { row_id, point, backsight_m: back, intermediate_m: between, foresight_m: fore } = sight;
    const read = fore ?? between;
    const fault = lineFault(sight, before);
    if (fault !== null) {
      findings.push({ code: 'level-sight-unused', severity: 'error', row_id, ...fault });
      lines.push({ row_id, point, rise_m: null, height_m: null, collimation_m: null });
      continue;
    }
    findings.push(...doubtsOf(sight));
    let rise: number | null = null;
    if (read !== null && before !== null) {
      rise = before - read;
      height += rise;
      if (rise >= 0) rises += rise;
      else falls -= rise;
      before = read;
    }
    if (fore !== null) {
      if (sight.distance_m === null || !(sight.distance_m > 0)) assumed ??= sight;
      km += (sight.distance_m !== null && sight.distance_m > 0 ? sight.distance_m : usual) / 1000;
      closedBy = fore;
      setups += 1;
      fores += fore;
      before = null;
    }
    if (back !== null) {
      backs += back;
      before = back;
      closedBy = null;
    }
    stations.push({ row_id, point, height, km, intermediate: fore === null && back === null });
    lines.push({
      row_id,
      point,
      rise_m: rise,
      height_m: height,
      collimation_m: back === null ? null : height + back,
    });
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

  // the book check holds for closed set-ups only: the open one has a back sight with no fore sight
  const isOpen = closedBy === null && before !== null;
  const sights_m = isOpen ? backs - before! - fores : backs - fores;
  const rises_m = rises - falls;
  const levels_m = last === undefined ? 0 : last.height - stations[0]!.height;
  const agrees = Math.abs(sights_m - rises_m) < 5e-7 && Math.abs(rises_m - levels_m) < 5e-7;
  return {
    lines,
    stations,
    check: { sights_m, rises_m, levels_m, agrees },
    sums: { back_m: backs, fore_m: fores, rise_m: rises, fall_m: falls },
    setups,
    isOpen,
    length_km: km,
    findings,
  };
}

/** Readings that are used and looked at again: no staff is that long, or it was upside down. */
function doubtsOf({ row_id, backsight_m, intermediate_m, foresight_m }: LevelSight): LevellingFinding[] {
  return [backsight_m, intermediate_m, foresight_m].flatMap((reading): LevellingFinding[] => {
    const doubt = reading === null ? null : staffDoubt(reading);
    if (doubt === null) return [];
    const found = `staff reading ${reading} m`;
    if (doubt === 'inverted') {
      return [
        {
          code: 'level-staff-inverted',
          severity: 'note',
          row_id,
          found,
          expected: 'a negative reading only with the staff upside down',
          fix: 'No action needed if the foot of the staff was held up against the point.',
        },
      ];
    }
    const meant = slippedPoint(reading!);
    return [
      {
        code: 'level-staff-long',
        severity: 'warning',
        row_id,
        found,
        expected: `at most ${LONGEST_STAFF_M} m, the longest staff in common use`,
        fix: `${meant === null ? 'Check the reading.' : `Was ${meant.toFixed(3)} m meant?`} Used as it is.`,
      },
    ];
  });
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
      fix: 'Enter each reading in its own place: back, intermediate or fore sight.',
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
