/** Plain tables of described units, one row each, handed to `correlate` or `section`: one column of units for each hole. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { CorrelatedColumn, CorrelatedUnit, Measured } from '@stillstand/science/correlate';
import { type PlainRow, type PlainTable, readPlainTable } from './plain-table.ts';

export interface DescribedHole {
  hole: string;
  /** Along the section, m; null where it is not stated. */
  at_m: number | null;
  /** Elevation of its ground; null where none, or several, are stated. */
  ground_m: number | null;
  /** Labels of its units, from the top down; a unit without one is named by its place. */
  labels: readonly string[];
  /** Contact at the base of each as described; null where none is. */
  bases: readonly (string | null)[];
  column: CorrelatedColumn;
}

/** 1 sigma of a depth that states none, m: a tape held at a contact (common practice, no source). */
const DEPTH_SIGMA_M = 0.03;
const DEPTHS = { min: -2, max: 500 };
const AGES = { min: -100, max: 1e6 };

interface UnitRow {
  row: PlainRow;
  label: string;
  top_m: number;
  bottom_m: number;
  sigma_m: number;
  ground_m: Measured | null;
  at_m: number | null;
  unit: Pick<CorrelatedUnit, 'sediment' | 'secondary_sediment' | 'properties' | 'base_age'>;
  isBaseSeen: boolean | null;
  base: string | null;
}

/** Whether all are names of plain tables; else a campaign is meant. */
export const areTables = (paths: readonly string[]): boolean =>
  paths.every((path) => /\.(csv|tsv|txt)$/i.test(path));

/** Holes in the order in which they appear first; a table without the column `hole` is one hole, named by its file. */
export async function readUnits(
  paths: readonly string[],
): Promise<{ holes: DescribedHole[]; problems: Problem[] }> {
  const rows = new Map<string, UnitRow[]>();
  const tables: PlainTable[] = [];
  const own: Problem[] = [];
  for (const path of paths) {
    const table = await readPlainTable(path, ['top_m', 'bottom_m', 'sediment']);
    const measured = table.columns.filter((name) => table.columns.includes(`${name}_sigma`));
    for (const row of table.rows) {
      const hole = table.columns.includes('hole') ? row.text('hole') : table.name.replace(/\.[^.]*$/, '');
      if (hole === '') {
        row.problem('hole', '', 'the hole of the unit', 'Fill the cell in; the row is left out.');
        continue;
      }
      const unit = unitRow(row, table, measured);
      if (unit !== null) rows.set(hole, [...(rows.get(hole) ?? []), unit]);
    }
    tables.push(table);
  }
  const holes = [...rows].map(([hole, units]) => describedHole(hole, units, own));
  return { holes, problems: [...tables.flatMap(({ problems }) => problems), ...own] };
}

function unitRow(row: PlainRow, table: PlainTable, measured: readonly string[]): UnitRow | null {
  const before = table.problems.length;
  const top_m = row.needed('top_m', DEPTHS);
  const bottom_m = row.needed('bottom_m', DEPTHS);
  if (top_m !== null && bottom_m !== null && bottom_m <= top_m)
    row.problem(
      'bottom_m',
      row.text('bottom_m'),
      `a depth below ${top_m}`,
      'Correct it; the row is left out.',
    );
  const sigma_m = row.number('depth_sigma_m', { min: 0, max: 20 }) ?? DEPTH_SIGMA_M;
  const ground = row.number('ground_m', { min: -500, max: 5000 });
  const groundSigma = row.number('ground_sigma_m', { min: 0, max: 20 }) ?? 0;
  const at_m = row.number('at_m', { min: -1e7, max: 1e7 });
  const youngest_cal_bp = row.number('base_youngest_cal_bp', AGES);
  const oldest_cal_bp = row.number('base_oldest_cal_bp', AGES);
  const seen = row.text('base_seen').toLowerCase();
  if (!['', 'yes', 'no'].includes(seen))
    row.problem('base_seen', row.text('base_seen'), 'yes or no', 'Correct it; the row is left out.');
  const properties = measured.flatMap((name): [string, Measured][] => {
    const value = row.number(name);
    const sigma = row.number(`${name}_sigma`, { min: 0 }) ?? 0;
    return value === null ? [] : [[name, { value, sigma }]];
  });
  if (table.problems.length > before || top_m === null || bottom_m === null) return null;
  return {
    row,
    label: row.text('unit'),
    top_m,
    bottom_m,
    sigma_m,
    ground_m: ground === null ? null : { value: ground, sigma: groundSigma },
    at_m,
    unit: {
      sediment: row.text('sediment') || null,
      secondary_sediment: row.text('secondary_sediment') || null,
      properties: Object.fromEntries(properties),
      base_age:
        youngest_cal_bp === null && oldest_cal_bp === null ? null : { youngest_cal_bp, oldest_cal_bp },
    },
    isBaseSeen: seen === '' ? null : seen === 'yes',
    base: row.text('contact_below').toLowerCase() || null,
  };
}

function describedHole(hole: string, given: readonly UnitRow[], problems: Problem[]): DescribedHole {
  const sorted = given.toSorted((a, b) => a.top_m - b.top_m || a.bottom_m - b.bottom_m);
  const units: UnitRow[] = [];
  for (const unit of sorted) {
    const above = units.at(-1);
    // Read to the millimetre, a unit may begin where the one above it ends.
    if (above === undefined || above.bottom_m <= unit.top_m + 0.001) units.push(unit);
    else
      unit.row.problem(
        'top_m',
        String(unit.top_m),
        `a unit below the one that ends at ${above.bottom_m}`,
        'Correct the depths; the unit that begins deeper is left out.',
      );
  }
  const grounds = new Set(units.map(({ ground_m }) => ground_m?.value ?? null));
  const ground = grounds.size === 1 ? (units[0]?.ground_m ?? null) : null;
  if (grounds.size > 1)
    problems.push(
      problem({
        severity: 'warning',
        code: 'grounds-differ',
        table: 'units',
        label: hole,
        column: 'ground_m',
        found: [...grounds].map((each) => each ?? 'none').join(', '),
        expected: 'one elevation of the ground for a hole',
        fix: 'Write the same in every row of the hole. Elevations of it are not compared until then.',
      }),
    );
  return {
    hole,
    at_m: units.find(({ at_m }) => at_m !== null)?.at_m ?? null,
    ground_m: ground?.value ?? null,
    labels: units.map(({ label }, i) => label || String(i + 1)),
    bases: units.map(({ base }) => base),
    column: {
      hasElevations: ground !== null,
      units: units.map(({ top_m, bottom_m, sigma_m, unit, isBaseSeen }, i): CorrelatedUnit => {
        const at = (depth_m: number): Measured => ({
          value: (ground?.value ?? 0) - depth_m,
          sigma: Math.sqrt(sigma_m * sigma_m + (ground?.sigma ?? 0) * (ground?.sigma ?? 0)),
        });
        return {
          ...unit,
          top_m: at(top_m),
          base_m: at(bottom_m),
          thickness_m: { value: bottom_m - top_m, sigma: Math.SQRT2 * sigma_m },
          isBaseSeen: isBaseSeen ?? i < units.length - 1,
        };
      }),
    },
  };
}
