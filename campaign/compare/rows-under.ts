/** Which changed rows are under a number, by the trace: that of the new computation, and of the old for what is gone. */
import { dependents, type TypedTables } from '@stillstand/campaign/document';
import type { TraceId } from '@stillstand/campaign/results';
import { readSettings } from '@stillstand/campaign/settings';
import type { Trace } from '@stillstand/campaign/steps';
import type { Row, TableName } from '@stillstand/campaign/tables';
import type { NumberChange } from './number-changes.ts';
import type { RowChange } from './row-changes.ts';

export interface Traced {
  trace: Trace;
  settings: readonly Row<'settings'>[];
  tables: TypedTables;
}

/** Gives the changed rows under a number, in their order. */
export function rowsUnder(
  changes: readonly RowChange[],
  old: Traced,
  now: Traced,
): (number: NumberChange) => RowChange[] {
  const rowsBelow = [old, now].map(({ trace }) => rowsBelowNodes(trace));
  const reach = settingsReach(changes, old.settings, now.settings);
  // An amendment or a withdrawal is a row of its own; the number is made of the reading that it amends.
  const amended = changes.map(({ cells }) => cells.find(({ column }) => column === 'amends'));
  const naming = changes.map(({ table, row_id }) => {
    let found: readonly string[] | null = null;
    return (): readonly string[] => {
      found ??= [old, now].flatMap(({ tables }) => namedThrough(tables, table, row_id));
      return found;
    };
  });
  return ({ kind, below }) => {
    const rows = rowsBelow.map((below_) => below_(below));
    const isUnder = (row_id: string): boolean => rows.some((each) => each.has(row_id));
    const traced = changes.filter((row, i) => {
      if (row.table === 'settings') {
        const reaches = reach.get(row.row_id);
        return reaches === 'all' || (reaches === 'curve' && (kind === 'rate' || kind === 'level'));
      }
      const { old: a = '', now: b = '' } = amended[i] ?? {};
      return [row.row_id, a, b].some((id) => id !== '' && isUnder(id));
    });
    // A date is not made of its sample, but without it there is none.
    return traced.length > 0 ? traced : changes.filter((_, i) => naming[i]!().some(isUnder));
  };
}

/** Identities of the rows that name a row, and of those that name them. */
function namedThrough(tables: TypedTables, table: TableName, row_id: string): string[] {
  const found = new Set<string>();
  const open = [{ table, row_id }];
  for (let row = open.pop(); row !== undefined; row = open.pop())
    for (const each of dependents(tables, row.table, row.row_id)) {
      if (found.has(each.row_id)) continue;
      found.add(each.row_id);
      open.push(each);
    }
  return [...found];
}

/** Identities of all rows below some nodes; each node is walked once, and the sets are kept. */
function rowsBelowNodes(trace: Trace): (nodes: readonly string[]) => ReadonlySet<string> {
  const known = new Map<string, ReadonlySet<string>>();
  return (nodes) => {
    const key = nodes.join('\n');
    const before = known.get(key);
    if (before !== undefined) return before;
    const rows = new Set<string>();
    const seen = new Set<number>();
    const open = nodes.map((id) => trace.find(id as TraceId)).filter((node) => node !== -1);
    for (let node = open.pop(); node !== undefined; node = open.pop()) {
      if (seen.has(node)) continue;
      seen.add(node);
      const { row } = trace.node(node);
      if (row !== null) rows.add(row.row_id);
      open.push(...trace.parts(node));
    }
    known.set(key, rows);
    return rows;
  };
}

/**
 * How far a setting reaches, by its row: what is computed from it is in no row of the trace. Each change is put to the
 * settings alone: one that changes what the curve is asked reaches the curve, any other all numbers, or none.
 */
function settingsReach(
  changes: readonly RowChange[],
  old: readonly Row<'settings'>[],
  now: readonly Row<'settings'>[],
): Map<string, 'curve' | 'all' | 'none'> {
  const before = parts(old);
  return new Map(
    changes.flatMap(({ table, row_id }) => {
      if (table !== 'settings') return [];
      const row = now.find((each) => each.row_id === row_id);
      const after = parts([
        ...old.filter((each) => each.row_id !== row_id),
        ...(row === undefined ? [] : [row]),
      ]);
      const reaches = before.rest !== after.rest ? 'all' : before.curve !== after.curve ? 'curve' : 'none';
      return [[row_id, reaches] as const];
    }),
  );
}

/** What only the curve is asked. Names, loads and waters of the rig, and ages between dates, are under no number compared. */
function parts(rows: readonly Row<'settings'>[]): { curve: string; rest: string } {
  const { settings } = readSettings(rows);
  const { curve, curve_sites, oldest_cal_bp, youngest_cal_bp, step_yr, present_constraint_sd_m } = settings;
  // The range of latent ages cuts the dates as well.
  const { age_range_cal_bp, ...model } = curve;
  const asked = { model, curve_sites, oldest_cal_bp, youngest_cal_bp, step_yr, present_constraint_sd_m };
  const { seed, datum, sounding_sigma_m, cable_mark_sigma_m, inclination_percent } = settings;
  const { depth_draws, layer_contrast, by_passing, plug_friction } = settings;
  const unit = settings.listed.find(({ name }) => name === 'length_unit')?.value;
  const heights = { unit, datum, sounding_sigma_m, cable_mark_sigma_m, inclination_percent };
  const depths = { seed, depth_draws, layer_contrast, by_passing, plug_friction };
  return { curve: JSON.stringify(asked), rest: JSON.stringify({ age_range_cal_bp, heights, depths }) };
}
