/** Tidal ranges that were not today's, for points of a plain table. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { square } from '@stillstand/science/base';
import type { CurvePoint } from '@stillstand/science/curve';
import { rangeThen, type TideRange, type TideRangeFault, tideRangeTable } from '@stillstand/science/points';
import type { Command, Words } from './command.ts';
import { calendarAge } from './plain-age.ts';
import { type PlainRow, type PlainTable, readPlainTable } from './plain-table.ts';

export const TIDE_RANGE_OPTIONS: Command['options'] = {
  'tide-ranges': {
    type: 'string',
    value: 'FILE',
    about:
      'tidal range then ÷ today: age_cal_bp, factor, factor_sigma (1 sigma, one error for all ages) and, if wanted, site',
  },
};

interface TideRanges {
  /** Null where none were asked for, or none of the site can be used. `site` empty: of no site. */
  of(site: string): { group: string; rows: readonly TideRange[] } | null;
  /** Called with the median age of each point that takes a factor. */
  used(group: string, id: string, age_cal_bp: number): void;
  isAsked: boolean;
  problems(): readonly Problem[];
}

/** A point by the tide of its time. Null where its row does not say what a factor would scale. */
export function inTheirTide(point: CurvePoint, row: PlainRow, ranges: TideRanges): CurvePoint | null {
  if (!ranges.isAsked) return point;
  const lever_m = row.needed('tide_level_above_mean_m', { min: -20, max: 20 });
  const table = ranges.of(row.text('site'));
  const { age: stated } = point;
  const dated = stated.kind === 'density' || stated.kind === 'of_hole' ? null : calendarAge(stated);
  const age = dated?.kind === 'calibrated' ? dated : null;
  if (lever_m === null) return null;
  // A date that cannot be used is named by the curve.
  if (table === null || age === null) return point;
  const { factor, factor_sigma, age_sigma } = rangeThen(table.rows, age);
  ranges.used(table.group, point.id, age.median_cal_bp);
  return {
    ...point,
    height_m: point.height_m - (factor - 1) * lever_m,
    half_range_m: factor * point.half_range_m,
    sigma_m: age_sigma === 0 ? point.sigma_m : Math.sqrt(square(point.sigma_m) + square(age_sigma * lever_m)),
    shared: [
      ...point.shared,
      ...(factor_sigma > 0 ? [{ group: `tide_range:${table.group}`, sigma_m: factor_sigma * lever_m }] : []),
    ],
  };
}

interface Rows {
  rows: TideRange[];
  beyond: string[];
}

/** Before anything is computed, as every file. `points`: ages that say whether the table is in thousands of years. */
export async function readTideRanges(words: Words, points: PlainTable): Promise<TideRanges> {
  const path = words.text('tide-ranges');
  const tables = new Map<string, Rows>();
  const problems: Problem[] = [];
  if (path !== undefined) {
    const table = await readPlainTable(path, ['age_cal_bp', 'factor', 'factor_sigma']);
    const read: { site: string; row: PlainRow; range: TideRange }[] = [];
    for (const row of table.rows) {
      const age_cal_bp = row.needed('age_cal_bp', { min: -200, max: 1e6 });
      const factor = row.needed('factor', { min: 0.01, max: 20 });
      const factor_sigma = row.needed('factor_sigma', { min: 0, max: 20 });
      if (age_cal_bp === null || factor === null || factor_sigma === null) continue;
      read.push({ site: row.text('site'), row, range: { age_cal_bp, factor, factor_sigma } });
    }
    for (const [site, of] of Map.groupBy(read, (each) => each.site)) {
      const { rows, faults } = tideRangeTable(
        of.map(({ range }) => range),
        oldestOf(points),
      );
      for (const fault of faults) problems.push(named(table.name, of[fault.row ?? 0]!.row.line, fault));
      if (rows.length > 0) tables.set(site, { rows, beyond: [] });
    }
    problems.unshift(...table.problems);
  }
  const groupOf = (site: string): string | null => (tables.has(site) ? site : tables.has('') ? '' : null);
  return {
    isAsked: path !== undefined,
    of: (site) => {
      const group = groupOf(site);
      return group === null ? null : { group, rows: tables.get(group)!.rows };
    },
    used: (group, id, age) => {
      const { rows, beyond } = tables.get(group)!;
      if (age < rows[0]!.age_cal_bp || age > rows.at(-1)!.age_cal_bp)
        beyond.push(`${id} at ${Math.round(age)}`);
    },
    problems: () => [
      ...problems,
      ...[...tables.values()].flatMap(({ rows, beyond }) =>
        beyond.length === 0 ? [] : [beyondTable(path!, rows, beyond)],
      ),
    ],
  };
}

/** By what is written, whether or not the row can be used. */
const oldestOf = ({ rows }: PlainTable): number =>
  Math.max(
    0,
    ...rows.map((row) => Number(row.text('age_cal_bp') || row.text('c14_age'))).filter(Number.isFinite),
  );

const named = (table: string, line: number, { reason, found, expected, fix }: TideRangeFault): Problem =>
  problem({
    severity: reason === 'out_of_order' ? 'note' : 'error',
    code: `tide-range-${reason.replaceAll('_', '-')}`,
    table,
    line,
    column: 'age_cal_bp',
    found,
    expected,
    fix,
  });

const beyondTable = (path: string, rows: readonly TideRange[], beyond: readonly string[]): Problem =>
  problem({
    severity: 'warning',
    code: 'tide-range-beyond-table',
    table: path.split(/[\\/]/).pop() ?? path,
    column: 'age_cal_bp',
    found: beyond.join(', '),
    expected: `points within the table, ${rows[0]!.age_cal_bp} to ${rows.at(-1)!.age_cal_bp} cal BP`,
    fix: 'Add rows that reach them. The factor of the nearest end is used until then, with its sigma.',
  });
